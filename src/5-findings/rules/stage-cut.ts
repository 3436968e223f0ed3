import { problem } from "../../0-base/problem.js";
import { clock } from "../../0-base/quantity.js";
import type { StageSpec } from "../../3-plan/event.js";
import { loadFor, type PlanSpec, workingIn } from "../../3-plan/plan.js";
import type { Abilities } from "../../4-timeline/ability.js";
import { pierNine } from "../examples.js";
import { overItsTime, simulatedPlan } from "../nodes.js";
import { type Rule } from "../rule.js";

declare module "../../0-base/problem.js" {
  interface ProblemValues {
    "stage-cut": { stage: string; done: number; target: number; withinS: number; forTime: boolean; leastS: number };
  }
}

export const stageCut: Rule<"stage-cut"> = {
  id: "stage-cut",
  // Where the score is reps, what was done counts: it is an outcome like others.
  severity: ({ forTime }) => (forTime ? "error" : "warning"),
  title: "A stage that is not done in its own time",
  why: "When a stage's time is over its work stops, done or not.",
  source: "the event; the time is the model's",
  bad: `${pierNine}event Sprint\n  stage 40 box jump within 1 min\nplan P for Sprint\n  «stage box jump»\n    repeat\n      Ada 5\n      Olu 5\n`,
  good: `${pierNine}event Sprint\n  stage 40 box jump within 3 min\nplan P for Sprint\n  stage box jump\n    repeat\n      Ada 5\n      Olu 5\n`,
  check: (judged) => {
    const simulated = simulatedPlan(judged);
    if (!simulated) return [];
    return simulated.timeline.stages.flatMap((run) => {
      const { stage, step, name, reps, rounds, target } = run;
      const spec = simulated.plan.event.stages[stage];
      if (!spec || target === null || !overItsTime(run, simulated.plan)) return [];
      const withinS = spec.withinS ?? 0;
      return [
        problem("stage-cut", simulated.spanOf(step), {
          stage: name,
          done: spec.rounds ? rounds : reps,
          target,
          withinS,
          forTime: simulated.plan.event.score === "time",
          leastS: leastSecondsOf(spec, target, simulated.plan, judged.evaluation.abilities),
        }),
      ];
    });
  },
  message: ({ stage, done, target, withinS, leastS }) => {
    const stands = `Stage ${stage} stands at ${done} of ${target} when its ${clock(withinS)} are over.`;
    return leastS > withinS
      ? `${stands} It cannot be done: without a pause, the fastest here would take ${clock(leastS)}. Go for as many as there is time for.`
      : `${stands} Rest less, or take shorter sets.`;
  },
};

/** Seconds that a stage takes at least, of one movement that counts rep by rep: as many as may work, all as fast as the fastest. */
function leastSecondsOf({ rounds, items, category }: StageSpec, target: number, { event, team }: PlanSpec, abilities: Abilities): number {
  const [item, another] = items;
  if (rounds || !item || another) return 0;
  const those = team.athletes.filter((one) => category === null || one.category === category);
  const { most, pairs } = workingIn(event) ?? { most: those.length, pairs: false };
  const atOnce = item.how === "in sync" || item.how === "together" ? 1 : Math.min(those.length, pairs ? 2 * most : most);
  const cycles = those.map(({ name }) => abilities.movement(name, item.movement, loadFor(team, name, item.load)).reserve.cycleS);
  return (target * Math.min(...cycles)) / Math.max(1, atOnce);
}
