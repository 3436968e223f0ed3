import { problem } from "../../0-base/problem.js";
import { pierNine } from "../examples.js";
import { overItsTime, simulatedPlan } from "../nodes.js";
import { always, type Rule } from "../rule.js";

declare module "../../0-base/problem.js" {
  interface ProblemValues {
    "total-short": { stage: string; target: number; unit: string; done: number; missing: number; absent: boolean };
  }
}

export const totalShort: Rule<"total-short"> = {
  id: "total-short",
  severity: always("error"),
  title: "Turns that do not reach the target",
  why: "The stage is not done, and no time counts.",
  source: "the event",
  bad: `${pierNine}event Sprint\n  stage 40 box jump\n«plan Simple for Sprint»\n  Ada 15\n  Olu 15\n`,
  good: `${pierNine}event Sprint\n  stage 40 box jump\nplan Simple for Sprint\n  repeat\n    Ada 10\n    Olu 10\n`,
  check: (judged) => {
    const simulated = simulatedPlan(judged);
    if (!simulated || simulated.timeline.stopped !== "done") return [];
    const { plan, timeline, spanOf } = simulated;
    return plan.event.stages.flatMap(({ name, target, rounds }, index) => {
      if (target === null) return [];
      const runs = timeline.stages.filter(({ stage }) => stage === index);
      const done = runs.reduce((sum, run) => sum + (rounds ? run.rounds : run.reps), 0);
      if (runs.some((run) => run.reached || overItsTime(run, plan))) return [];
      const unit = rounds ? "rounds" : "reps";
      return [
        problem("total-short", spanOf(runs.at(-1)?.step ?? 0), {
          stage: name,
          target,
          done,
          missing: target - done,
          unit,
          absent: runs.length === 0,
        }),
      ];
    });
  },
  message: (values) =>
    values.absent
      ? `Stage ${values.stage} is not in the plan, and its target is ${values.target} ${values.unit}.`
      : `The turns of ${values.stage} come to ${values.done} of ${values.target} ${values.unit}, ${values.missing} short. Add turns, or put them under repeat.`,
};
