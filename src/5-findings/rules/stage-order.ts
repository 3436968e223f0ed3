import { problem, type ProblemOf } from "../../0-base/problem.js";
import { clock } from "../../0-base/quantity.js";
import { pierNine } from "../examples.js";
import { slight } from "../limits/limit.js";
import { simulatedPlan } from "../nodes.js";
import { type Rule } from "../rule.js";

declare module "../../0-base/problem.js" {
  interface ProblemValues {
    "stage-order": { stage: string; atS: number; before: string; never: boolean };
  }
}

export const stageOrder: Rule<"stage-order"> = {
  id: "stage-order",
  // An event may leave the order of its stages open; none leaves a stage out.
  severity: ({ never }) => (never ? "error" : "warning"),
  title: "A stage that begins before an earlier one is done",
  why: "Stages are published in the order in which they are done: work at a later one may not count until the earlier one is done.",
  source: "the event",
  bad: `${pierNine}event Drill\n  score reps\n  cap 4 min\n  stage first  20 box jump\n  stage "second"  box jump\nplan P for Drill\n  «stage second»\n    Ada 5\n`,
  good: `${pierNine}event Drill\n  score reps\n  cap 4 min\n  stage first  20 box jump\n  stage "second"  box jump\nplan P for Drill\n  stage first\n    repeat\n      Ada 5\n  stage second\n    Olu 5\n`,
  check: (judged) => {
    const simulated = simulatedPlan(judged);
    if (!simulated || simulated.plan.event.windows.length > 0) return [];
    const { plan, timeline, spanOf } = simulated;
    const told = new Set<number>();
    return timeline.stages.flatMap(({ stage, step, name, startS, reps }): readonly ProblemOf<"stage-order">[] => {
      const category = plan.event.stages[stage]?.category ?? null;
      // One that is begun and never done is told by its total.
      const earlier = plan.event.stages.slice(0, stage).find((before, index) => {
        const sameHands = category === null || before.category === null || before.category === category;
        const runs = timeline.stages.filter((run) => run.stage === index);
        return sameHands && before.target !== null && (runs.length === 0 || runs.some(({ endS }) => endS > startS + slight));
      });
      if (!earlier || reps === 0 || told.has(stage)) return [];
      told.add(stage);
      const never = !timeline.stages.some((run) => run.name === earlier.name);
      return [problem("stage-order", spanOf(step), { stage: name, atS: startS, before: earlier.name, never })];
    });
  },
  message: ({ stage, atS, before, never }) =>
    never
      ? `Stage ${stage} begins at ${clock(atS)}, and stage ${before}, which the event has before it, is left out. Plan it first.`
      : `Stage ${stage} begins at ${clock(atS)}, before stage ${before} is done, which the event has first. Plan ${before} first, unless the event leaves the order open.`,
};
