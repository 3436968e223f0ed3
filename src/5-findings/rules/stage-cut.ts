import { problem } from "../../0-base/problem.js";
import { clock } from "../../0-base/quantity.js";
import { pierNine } from "../examples.js";
import { overItsTime, simulatedPlan } from "../nodes.js";
import { type Rule } from "../rule.js";

declare module "../../0-base/problem.js" {
  interface ProblemValues {
    "stage-cut": { stage: string; done: number; target: number; withinS: number; forTime: boolean };
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
        }),
      ];
    });
  },
  message: ({ stage, done, target, withinS }) =>
    `Stage ${stage} stands at ${done} of ${target} when its ${clock(withinS)} are over. Rest less, or take shorter sets.`,
};
