import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { faultsAmong, type Placed } from "../5-findings/placing.js";
import { bestOrder, costOf, type Hour, type OrderProblem, unrested } from "../6-search/order.js";
import { problemOf, weekOrders } from "../6-search/week-orders.js";
import { compile } from "../compile.js";
import { quantile, type BenchRow, times } from "./measure.js";

/** The best order of the demo's week, against trying every order; all orders that are offered for it; and eight events over nine days. */
export function weekRows(root: string): readonly BenchRow[] {
  const folder = join(root, "notebooks/lighthouse");
  const documents = readdirSync(folder)
    .filter((name) => name.endsWith(".rota"))
    .map((path) => ({ path, text: readFileSync(join(folder, path), "utf8") }));
  const compiled = compile(documents);
  const week = [...compiled.documents.values()].flatMap(({ blocks }) => blocks.flatMap((block) => block.week ?? []))[0];
  if (!week) throw new Error("the demo has no week");
  const {
    abilities,
    world: { constants },
  } = compiled.kept;
  const problem = problemOf(week, abilities, constants);
  const ms = quantile(times(5, () => exhausted(bestOrder(problem, "least in all"))));
  const everyMs = quantile(times(3, () => void everyOrder(problem)));
  const allMs = quantile(times(3, () => exhausted(weekOrders(week, abilities, constants))));
  const wideMs = quantile(times(1, () => exhausted(bestOrder(eightInNine(), "least in all"))));
  return [
    { name: "best order, 4 events and a second try in 7 days", ms, floorMs: everyMs, floor: "every order, one by one", most: 1 },
    { name: "all orders offered for that week, with their prices", ms: allMs, floorMs: 2_000, floor: "2 s", most: 1 },
    { name: "best order, 8 events in 9 days", ms: wideMs, floorMs: 20_000, floor: "20 s", most: 1 },
  ];
}

function exhausted(search: Iterator<unknown, unknown>): void {
  while (!search.next().done);
}

function everyOrder(problem: OrderProblem): number {
  const { tries } = problem;
  let best = Number.POSITIVE_INFINITY;
  const hours: Hour[] = [];
  const place = (at: number): void => {
    if (at < tries.length) {
      for (const hour of tries[at]?.hours ?? []) {
        hours[at] = hour;
        place(at + 1);
      }
      return;
    }
    const placed = tries.flatMap(({ session, lastsS }, of): readonly Placed[] => {
      const hour = hours[of];
      return hour ? [{ session, date: hour.date, startS: hour.startS, endS: hour.startS + lastsS }] : [];
    });
    const stands = placed.every((one, of) => {
      const others = placed.filter((other) => other !== one);
      return faultsAmong(problem, one, others).length === 0 && !unrested(problem, of, one.date, others);
    });
    if (stands) best = Math.min(best, costOf(problem, hours, "least in all").cost);
  };
  place(0);
  return best;
}

/** What each takes from each is drawn by a fixed rule, between nothing and a twentieth a part of the body. */
function eightInNine(): OrderProblem {
  const halfLivesS = [18, 36, 48, 96].map((hours) => hours * 3_600);
  const tries = Array.from({ length: 8 }, (_, at) => ({
    session: { at, event: `Event ${at}`, again: false },
    weight: 1,
    lastsS: 900,
    hours: Array.from({ length: 9 }, (__, day) => ({ date: `2026-03-${10 + day}`, time: "18:00", startS: day * 86_400 + 64_800 })),
  }));
  const takes = tries.map((_, from) => tries.map((__, to) => halfLivesS.map((___, part) => ((from * 31 + to * 17 + part * 7) % 10) / 200)));
  return { tries, takes, halfLivesS, rested: null, mostADay: 1, gapS: 0 };
}
