import { problem } from "../../0-base/problem.js";
import { pierNine } from "../examples.js";
import { byPublisher, limitValues, type LimitValues } from "../limit-values.js";
import { neverHolds } from "../limits/never-holds.js";
import { broken, simulatedPlan } from "../nodes.js";
import { type Rule } from "../rule.js";

declare module "../../0-base/problem.js" {
  interface ProblemValues {
    "never-holds": LimitValues & { athlete: string; seconds: number };
  }
}

export const neverHoldsRule: Rule<"never-holds"> = {
  id: "never-holds",
  severity: byPublisher,
  title: "On the hold, and is never to be",
  why: "A rule that keeps somebody off the hold is kept by the whole plan.",
  source: "the event, or the coach",
  bad: `${pierNine}event Sprint\n  stage 10 box jump while 1 hold stone\nplan Simple for Sprint\n  rule Olu never holds\n  «Ada 10 while Olu hold»\n`,
  good: `${pierNine}event Sprint\n  stage 10 box jump while 1 hold stone\nplan Simple for Sprint\n  rule Ada never holds\n  Ada 10 while Olu hold\n`,
  check: (judged) => {
    const simulated = simulatedPlan(judged);
    if (!simulated) return [];
    return broken(simulated, neverHolds).map(({ who, value, step, limit }) =>
      problem("never-holds", simulated.spanOf(step), { athlete: who, seconds: value, ...limitValues(limit) }),
    );
  },
  message: (values) =>
    `${values.athlete} is on the hold for ${Math.round(values.seconds)} s in all, and is never to hold (${values.by}). Give the hold to somebody else.`,
};
