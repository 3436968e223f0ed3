import { problem } from "../../0-base/problem.js";
import { counted } from "../../0-base/quantity.js";
import { turnsOf } from "../../3-plan/plan.js";
import { pierNine } from "../examples.js";
import { byPublisher, limitValues, type LimitValues } from "../limit-values.js";
import { changeEvery } from "../limits/change-every.js";
import { repsOf } from "../limits/sets.js";
import { broken, simulatedPlan } from "../nodes.js";
import { type Rule } from "../rule.js";

declare module "../../0-base/problem.js" {
  interface ProblemValues {
    "change-due": LimitValues & { athlete: string; reps: number };
  }
}

export const changeDue: Rule<"change-due"> = {
  id: "change-due",
  severity: byPublisher,
  title: "A change of hands at another rep than the rule's",
  why: "Where the event says after how many reps hands change, more or fewer do not count.",
  source: "the rule; a turn that the target, the cap or its window ends may be shorter",
  bad: `${pierNine}event Sprint\n  stage 20 box jump\n  rule change every 5 reps\nplan P for Sprint\n  «Ada 4»\n  Olu 5\n  Ada 5\n  Olu 5\n  Ada 1\n`,
  good: `${pierNine}event Sprint\n  stage 20 box jump\n  rule change every 5 reps\nplan P for Sprint\n  repeat\n    Ada 5\n    Olu 5\n`,
  check: (judged) => {
    const simulated = simulatedPlan(judged);
    if (!simulated) return [];
    const turns = turnsOf(simulated.plan.steps);
    return broken(simulated, changeEvery).map(({ who, value, step, atS, limit }) => {
      const turn = turns.find(({ id }) => id === step);
      // A broken set has to come to its sum, and of a shared number each has a part.
      const plainly = turn?.works.every(({ broken, rhythm }) => broken === null && (rhythm !== "each" || turn.who.length === 1)) ?? false;
      const size = plainly && limit.value >= 1 && repsOf(who, step, atS, simulated.run) === value ? simulated.plan.nodes[step]?.size : null;
      const fixes = size ? [{ title: `write ${limit.value}`, edits: [{ span: size, text: String(limit.value) }] }] : [];
      return problem("change-due", simulated.spanOf(step), { athlete: who, reps: value, ...limitValues(limit) }, fixes);
    });
  },
  message: (values) =>
    `${values.athlete} does ${counted(values.reps, "rep")} before the change; the rule wants ${values.limit} (${values.by}).`,
};
