import { problem } from "../../0-base/problem.js";
import { clock } from "../../0-base/quantity.js";
import { dueAfter } from "../../3-plan/event.js";
import { kelpStreet } from "../examples.js";
import { simulatedPlan } from "../nodes.js";
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
    const order = simulated?.plan.event.order ?? null;
    if (!simulated || order === null) return [];
    const soFar: string[] = [];
    for (const run of simulated.timeline.turns.toSorted((a, b) => a.startS - b.startS)) {
      const [first, ...others] = run.athletes;
      if (!first || others.length > 0) continue;
      const [who, after] = [first.name, soFar.at(-1) ?? ""];
      const due = dueAfter(order, soFar);
      if (due !== null && who !== due && who !== after)
        return [problem("out-of-order", simulated.spanOf(run.step), { who, after, due, atS: run.startS })];
      if (who !== after) soFar.push(who);
    }
    return [];
  },
  message: ({ who, after, due, atS }) =>
    after === ""
      ? `${who} begins; in the event's order ${due} does. Let ${due} go first.`
      : `${who} follows ${after} at ${clock(atS)}; in the event's order ${due} does. Let ${due} go then.`,
};
