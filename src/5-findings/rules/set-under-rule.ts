import { problem } from "../../0-base/problem.js";
import { counted } from "../../0-base/quantity.js";
import { pierNine } from "../examples.js";
import { byPublisher, limitValues, type LimitValues } from "../limit-values.js";
import { beforeChange, setAtLeast } from "../limits/set-at-least.js";
import { broken, simulatedPlan } from "../nodes.js";
import { type Rule } from "../rule.js";

declare module "../../0-base/problem.js" {
  interface ProblemValues {
    "set-under-rule": LimitValues & { athlete: string; reps: number; change: boolean };
  }
}

export const setUnderRule: Rule<"set-under-rule"> = {
  id: "set-under-rule",
  severity: byPublisher,
  title: "A set smaller than the rule allows",
  why: "Where a least set is asked, in one go or before a change, a shorter one does not count.",
  source: "the rule; a set that the target, the cap or its window ends may be shorter",
  bad: `${pierNine}event Sprint\n  stage 20 box jump\n  rule at least 5 reps before a change\nplan P for Sprint\n  «Ada 4»\n  Olu 8\n  Ada 8\n`,
  good: `${pierNine}event Sprint\n  stage 20 box jump\n  rule at least 5 reps before a change\nplan P for Sprint\n  Ada 8\n  Olu 9\n  Ada 3\n`,
  check: (judged) => {
    const simulated = simulatedPlan(judged);
    if (!simulated) return [];
    return [setAtLeast, beforeChange].flatMap((kind) =>
      broken(simulated, kind).map(({ who, value, step, limit }) => {
        const values = { athlete: who, reps: value, change: kind === beforeChange, ...limitValues(limit) };
        return problem("set-under-rule", simulated.spanOf(step), values);
      }),
    );
  },
  message: (values) =>
    `${values.athlete} does ${counted(values.reps, "rep")} ${values.change ? "before the change" : "in one set"}; the rule wants at least ${values.limit} (${values.by}). Make the set larger.`,
};
