import { problem } from "../../0-base/problem.js";
import { percent } from "../../0-base/quantity.js";
import { pierNine } from "../examples.js";
import { byPublisher, limitValues, type LimitValues } from "../limit-values.js";
import { setAtMostReps, setAtMostUnbroken } from "../limits/set-at-most.js";
import { repsOf } from "../limits/sets.js";
import { broken, simulatedPlan } from "../nodes.js";
import { type Rule } from "../rule.js";

declare module "../../0-base/problem.js" {
  interface ProblemValues {
    "set-over-rule": LimitValues & { athlete: string; reps: number; share: boolean; joined: boolean };
  }
}

export const setOverRule: Rule<"set-over-rule"> = {
  id: "set-over-rule",
  severity: byPublisher,
  title: "A set larger than the rule allows",
  why: "You set the bound so that nobody is carried away on the floor.",
  source: "the rule; the reps are those the timeline counts, so a set cut short at the target is judged as cut",
  bad: `${pierNine}event Sprint\n  stage 20 box jump\nplan P for Sprint\n  rule set at most 8 reps\n  Ada 8\n  «Olu 12»\n`,
  good: `${pierNine}event Sprint\n  stage 20 box jump\nplan P for Sprint\n  rule set at most 12 reps\n  Ada 8\n  Olu 12\n`,
  check: (judged) => {
    const simulated = simulatedPlan(judged);
    if (!simulated) return [];
    const kinds = [setAtMostReps, setAtMostUnbroken] as const;
    return kinds.flatMap((kind) =>
      broken(simulated, kind).map(({ who, value, step, atS, limit }) =>
        problem("set-over-rule", simulated.spanOf(step), {
          athlete: who,
          reps: value,
          share: kind === setAtMostUnbroken,
          joined: repsOf(who, step, atS, simulated.run) < value,
          ...limitValues(limit),
        }),
      ),
    );
  },
  message: (values) =>
    `${values.athlete} does ${values.reps} in one set${values.joined ? " with the turn before" : ""}; the rule allows ${values.share ? `${percent(values.limit)} of the best unbroken set` : `${values.limit} reps`} (${values.by}). ${values.joined ? "Put a rest or somebody else between the two." : "Split it."}`,
};
