import { problem, type ProblemOf } from "../../0-base/problem.js";
import { clock } from "../../0-base/quantity.js";
import { dueAfter } from "../../3-plan/event.js";
import { categoryIn, orderIn, type Step } from "../../3-plan/plan.js";
import { kelpStreet } from "../examples.js";
import type { TurnRun } from "../../4-timeline/timeline.js";
import { type Simulated, simulatedPlan } from "../nodes.js";
import { always, type Rule } from "../rule.js";

declare module "../../0-base/problem.js" {
  interface ProblemValues {
    "out-of-order": { who: string; after: string; due: string; atS: number };
  }
}

export const outOfOrder: Rule<"out-of-order"> = {
  id: "out-of-order",
  severity: always("error"),
  title: "Athletes in another order than the event's",
  why: "The event says who follows whom: what is done out of turn does not count.",
  source: "the event",
  bad: `${kelpStreet}event Sprint\n  order Ines, Bram, Marta, Tariq\n  stage 20 box jump\nplan P for Sprint\n  Ines 5\n  «Marta 5»\n  Bram 5\n  Tariq 5\n`,
  good: `${kelpStreet}event Sprint\n  order Ines, Bram, Marta, Tariq\n  stage 20 box jump\nplan P for Sprint\n  repeat\n    Ines 5\n    Bram 5\n    Marta 5\n    Tariq 5\n`,
  check: (judged) => {
    const simulated = simulatedPlan(judged);
    return simulated && simulated.plan.event.order !== null ? outOfTurn(simulated) : [];
  },
  message: ({ who, after, due, atS }) =>
    after === ""
      ? `${who} begins; in the event's order ${due} does. Let ${due} go first.`
      : `${who} follows ${after} at ${clock(atS)}; in the event's order ${due} does. Let ${due} go then.`,
};

/** Each stage, window and lane has its own turns: the first that is somebody else's is told. */
function outOfTurn({ plan, timeline, spanOf }: Simulated): readonly ProblemOf<"out-of-order">[] {
  const order = orderIn(plan.event, plan.team);
  const places = placesOf(plan.steps);
  const alone = timeline.turns.filter(({ athletes }) => athletes.length === 1).toSorted((a, b) => a.startS - b.startS);
  const groups = new Map<string, TurnRun[]>();
  for (const run of alone) {
    const key = `${run.stage} ${places.get(run.step)?.path ?? ""}`;
    groups.set(key, [...(groups.get(key) ?? []), run]);
  }
  for (const runs of groups.values()) {
    const names = runs.map(({ athletes }) => athletes[0]?.name ?? "");
    const { window, lane } = places.get(runs[0]?.step ?? 0) ?? { window: null, lane: false };
    const whose =
      window === null ? (plan.event.stages[runs[0]?.stage ?? 0]?.category ?? null) : (plan.event.windows[window]?.category ?? null);
    const may = (name: string): boolean => (lane ? names.includes(name) : whose === null || categoryIn(plan.team, name) === whose);
    const due = order === "fixed" || order === null ? order : order.filter(may);
    for (const [at, run] of runs.entries()) {
      // Who goes on after a rest has not given the turn away.
      const soFar = names.slice(0, at).filter((name, place) => name !== names[place - 1]);
      const [who = "", after = "", next] = [names[at], soFar.at(-1), dueAfter(due, soFar)];
      if (next !== null && who !== next && who !== after)
        return [problem("out-of-order", spanOf(run.step), { who, after, due: next, atS: run.startS })];
    }
  }
  return [];
}

interface Place {
  /** Of the windows and lanes around it. */
  readonly path: string;
  readonly lane: boolean;
  /** Its number in the event. */
  readonly window: number | null;
}

function placesOf(steps: readonly Step[], around: Place = { path: "", lane: false, window: null }): ReadonlyMap<number, Place> {
  const found = new Map<number, Place>();
  const inside = (body: readonly Step[], place: Place): void => placesOf(body, place).forEach((one, id) => found.set(id, one));
  for (const step of steps) {
    if (step.kind === "turn") found.set(step.id, around);
    else if (step.kind === "lanes")
      step.lanes.forEach(({ id, body }) => inside(body, { ...around, path: `${around.path}/${id}`, lane: true }));
    else if (step.kind === "window") inside(step.body, { ...around, path: `${around.path}/${step.id}`, window: step.window });
    else if (step.kind !== "rest") inside(step.body, around);
  }
  return found;
}
