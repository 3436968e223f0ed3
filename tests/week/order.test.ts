/** The best order of a week, against all orders tried one by one, and against an independent solver on a model written apart. */
import loadHighs from "highs";
import { describe, expect, it } from "vitest";
import { type Aim, bestOrder, type Hour, type Order, type OrderProblem } from "../../src/6-search/order.js";
import { randomWeek } from "./random-weeks.js";

const day = 86_400;

function found(problem: OrderProblem, aim: Aim): Order | null {
  const search = bestOrder(problem, aim);
  for (let step = search.next(); ; step = search.next()) if (step.done) return step.value;
}

/** Every placing of all sessions, one after the other in the order of the text; what the week's limits and the model say, said again. */
function bruteForce({ tries, takes, halfLivesS, mostADay, gapS }: OrderProblem, aim: Aim): number | null {
  let best: number | null = null;
  const at: Hour[] = [];
  const allowed = (): boolean => {
    const order = tries.map((one, place) => ({ ...one, hour: at[place] })).sort((a, b) => (a.hour?.startS ?? 0) - (b.hour?.startS ?? 0));
    const byDay = new Map<number, number>();
    for (const [place, { hour, session }] of order.entries()) {
      const on = Math.floor((hour?.startS ?? 0) / day);
      byDay.set(on, (byDay.get(on) ?? 0) + 1);
      if ((byDay.get(on) ?? 0) > mostADay) return false;
      const before = order[place - 1];
      if (before?.hour && hour && (hour.startS === before.hour.startS || hour.startS - before.hour.startS - before.lastsS < gapS))
        return false;
      if (session.again && order.slice(place).some((later) => !later.session.again && later.session.event === session.event)) return false;
    }
    return true;
  };
  const price = (): number => {
    const loss = tries.map((_, to) => {
      let sum = 0;
      tries.forEach(({ lastsS }, from) => {
        const between = (at[to]?.startS ?? 0) - (at[from]?.startS ?? 0) - lastsS;
        if ((at[from]?.startS ?? 0) < (at[to]?.startS ?? 0))
          halfLivesS.forEach(
            (halfLife, part) => (sum += (takes[from]?.[to]?.[part] ?? 0) * Math.exp((-Math.LN2 * Math.max(0, between)) / halfLife)),
          );
      });
      return sum;
    });
    const events = tries.map(({ weight }, session) => weight * (loss[session] ?? 0));
    const sum = events.reduce((all, one) => all + one, 0);
    return aim === "least in all" ? sum : Math.max(...events) + 0.01 * sum;
  };
  const place = (session: number): void => {
    if (session === tries.length) {
      if (!allowed()) return;
      const cost = price();
      if (best === null || cost < best) best = cost;
      return;
    }
    for (const hour of tries[session]?.hours ?? []) {
      at[session] = hour;
      place(session + 1);
    }
  };
  place(0);
  return best;
}

describe("the best order of a week", () => {
  it.each(Array.from({ length: 36 }, (_, seed) => seed + 1))("is what brute force finds, random week %i", (seed) => {
    const problem = randomWeek(seed);
    for (const aim of ["least in all", "worst protected"] as const) {
      const order = found(problem, aim);
      const best = bruteForce(problem, aim);
      expect([aim, order === null]).toEqual([aim, best === null]);
      if (order && best !== null) expect(order.cost).toBeCloseTo(best, 9);
    }
  });

  // HiGHS: a yes or no for each session and hour, one for each two of them together; linear, nothing of the search in it.
  it("is what an integer programme solved by HiGHS finds", async () => {
    const highs = await loadHighs();
    let compared = 0;
    for (let seed = 1; seed <= 24; seed += 1) {
      const problem = randomWeek(seed);
      const order = found(problem, "least in all");
      const solved = highs.solve(integerProgramme(problem), { mip_rel_gap: 0, mip_abs_gap: 0 });
      if (solved.Status !== "Optimal") {
        expect([seed, solved.Status, order]).toEqual([seed, "Infeasible", null]);
        continue;
      }
      expect(order?.cost).toBeCloseTo(solved.ObjectiveValue, 6);
      compared += 1;
    }
    expect(compared).toBeGreaterThanOrEqual(20);
  });
});

function integerProgramme({ tries, takes, halfLivesS, mostADay, gapS }: OrderProblem): string {
  const picks = tries.flatMap(({ hours, lastsS, weight }, session) =>
    hours.map((hour, slot) => ({ name: `x${session}_${slot}`, session, lastsS, weight, startS: hour.startS })),
  );
  const [rows, terms]: [string[], string[]] = [[], []];
  tries.forEach((_, session) =>
    rows.push(
      `${picks
        .filter((one) => one.session === session)
        .map(({ name }) => name)
        .join(" + ")} = 1`,
    ),
  );
  for (const on of new Set(picks.map(({ startS }) => Math.floor(startS / day)))) {
    const those = picks.filter(({ startS }) => Math.floor(startS / day) === on);
    rows.push(`${those.map(({ name }) => name).join(" + ")} <= ${mostADay}`);
  }
  const pairs: string[] = [];
  for (const a of picks) {
    for (const b of picks) {
      if (a.session === b.session || a.startS > b.startS || (a.startS === b.startS && a.session > b.session)) continue;
      const between = b.startS - a.startS - a.lastsS;
      const backwards =
        tries[a.session]?.session.again &&
        !tries[b.session]?.session.again &&
        tries[a.session]?.session.event === tries[b.session]?.session.event;
      if (a.startS === b.startS || between < gapS || backwards) rows.push(`${a.name} + ${b.name} <= 1`);
      const cost =
        b.weight *
        halfLivesS.reduce(
          (sum, halfLife, part) => sum + (takes[a.session]?.[b.session]?.[part] ?? 0) * 2 ** (-Math.max(0, between) / halfLife),
          0,
        );
      if (cost === 0) continue;
      const both = `y${pairs.length}`;
      pairs.push(both);
      terms.push(`${cost.toFixed(12)} ${both}`);
      rows.push(`${both} - ${a.name} - ${b.name} >= -1`);
    }
  }
  return `Minimize\n obj: ${terms.join(" + ")}\nSubject To\n${rows.map((row, at) => ` c${at}: ${row}`).join("\n")}\nBinary\n ${picks.map(({ name }) => name).join(" ")}\nEnd`;
}
