import { problem } from "../../0-base/problem.js";
import { counted } from "../../0-base/quantity.js";
import { pierNine } from "../examples.js";
import { simulatedPlan } from "../nodes.js";
import { outOfRound } from "../out-of-round.js";
import { always, type Rule } from "../rule.js";

declare module "../../0-base/problem.js" {
  interface ProblemValues {
    "round-out-of-order": { left: number; wanted: string; done: string };
  }
}

const event =
  "ability  Ada  Olu\n  step  unbroken  20  24  reps\n  step  cycle  2  2  s\nevent Drill\n  score reps\n  cap 3 min\n  round\n    5 box jump\n    4 step\n";

export const roundOutOfOrder: Rule<"round-out-of-order"> = {
  id: "round-out-of-order",
  severity: always("error"),
  title: "A round that is not done as the event wants it",
  why: "All items of a round come in their order before the next begins: reps out of it do not count.",
  source: "the event",
  bad: `${pierNine}${event}plan P for Drill\n  Ada 5 box jump\n  «Olu 5 box jump»\n`,
  good: `${pierNine}${event}plan P for Drill\n  Ada 5 box jump\n  Olu 4 step\n  Ada round\n`,
  check: (judged) => {
    const simulated = simulatedPlan(judged);
    if (!simulated) return [];
    const { plan, timeline, spanOf } = simulated;
    return outOfRound(plan, timeline.turns).map(({ step, ...values }) => problem("round-out-of-order", spanOf(step), values));
  },
  message: (values) =>
    `The round wants ${counted(values.left, "rep")} of ${values.wanted} next; this turn does ${values.done}. Write round, or its items in their order.`,
};
