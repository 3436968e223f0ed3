import { type Problem, problem } from "../../0-base/problem.js";
import { percent } from "../../0-base/quantity.js";
import { limitsInForce } from "../../3-plan/limits.js";
import { loadFor, turnsOf } from "../../3-plan/plan.js";
import { pierNine } from "../examples.js";
import { byPublisher, limitValues } from "../limits.js";
import { simulatedPlan } from "../nodes.js";
import { amount, type Rule, text } from "../rule.js";

export const setOverRule: Rule = {
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
    const { plan, timeline, abilities, sources, spanOf } = simulated;
    const limits = [...limitsInForce(sources, "set at most reps"), ...limitsInForce(sources, "set at most unbroken")];
    return limits.flatMap((limit): readonly Problem[] =>
      turnsOf(plan.steps).flatMap((turn) => {
        const over = timeline.turns.filter(({ step }) => step === turn.id).flatMap(({ athletes }) => athletes).find(({ name, reps }) => {
          const [work] = turn.works;
          if (!work || turn.rounds !== null) return false;
          const most = limit.kind === "set at most reps" ? limit.value : limit.value * abilities.unbroken(name, work.movement, loadFor(plan.team, name, work.load)).reps;
          return Math.min(reps, ...(work.broken ? [Math.max(...work.broken.parts)] : [])) > most + 1e-9;
        });
        return over ? [problem("set-over-rule", spanOf(turn.id), { athlete: over.name, reps: over.reps, share: limit.kind === "set at most unbroken", ...limitValues(limit) })] : [];
      }),
    );
  },
  message: (values) =>
    `${text(values, "athlete")} does ${amount(values, "reps")} in one set; the rule allows ${values.share === true ? `${percent(amount(values, "limit"))} of the best unbroken set` : `${amount(values, "limit")} reps`} (${text(values, "by")}). Split it.`,
};
