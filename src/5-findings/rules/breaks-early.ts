import { problem } from "../../0-base/problem.js";
import { clock, percent } from "../../0-base/quantity.js";
import { pierNine } from "../examples.js";
import { inForce, type LimitInForce } from "../limits/limit.js";
import { noMissBefore } from "../limits/no-miss-before.js";
import { simulatedPlan } from "../nodes.js";
import { byPublisher } from "../limit-values.js";
import { type Rule } from "../rule.js";

declare module "../../0-base/problem.js" {
  interface ProblemValues {
    "breaks-early": { athlete: string; atS: number; share: number; dueS: number; by: string; published: boolean };
  }
}

/** Fraction of the cap before which nobody should miss; a rule of thumb of the trade, no source. */
const usualShare = 0.9;
const ruleOfThumb: LimitInForce = { value: usualShare, who: null, by: "a rule of thumb of the trade", published: false, over: [] };

export const breaksEarly: Rule<"breaks-early"> = {
  id: "breaks-early",
  severity: byPublisher,
  title: "A miss before the last tenth of the time",
  why: "Who misses early pays for it in every set that follows.",
  source: "a rule of thumb of the trade (common practice, no source)",
  bad: `${pierNine}event Drill\n  score reps\n  cap 3 min\n  stage box jump\nplan P for Drill\n  Ada 6\n  rest 10 s\n  «Ada 19»\n  Olu 6\n`,
  good: `${pierNine}event Drill\n  score reps\n  cap 3 min\n  stage box jump\nplan P for Drill\n  Ada 6\n  rest 10 s\n  Olu 6\n  rest 10 s\n  Ada 6\n`,
  check: (judged) => {
    const simulated = simulatedPlan(judged);
    if (!simulated || simulated.timeline.capS === null) return [];
    if (simulated.plan.event.score !== "reps" && inForce(simulated.sources, noMissBefore).length === 0) return [];
    const [limit = ruleOfThumb] = inForce(simulated.sources, noMissBefore);
    return noMissBefore.measure(simulated.run, [limit], []).map(({ who, atS, due, step }) =>
      problem("breaks-early", simulated.spanOf(step), {
        athlete: who,
        atS,
        share: limit.value,
        dueS: due,
        by: limit.by,
        published: limit.published,
      }),
    );
  },
  message: (values) =>
    `${values.athlete} is expected to miss at ${clock(values.atS)}, before ${percent(values.share)} of the time is over (${clock(values.dueS)}): ${values.by}. Open with smaller sets.`,
};
