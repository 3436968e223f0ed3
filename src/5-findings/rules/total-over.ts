import { problem } from "../../0-base/problem.js";
import { pierNine } from "../examples.js";
import { simulatedPlan } from "../nodes.js";
import { always, type Rule } from "../rule.js";
import { isOver, typedIn } from "../typed-total.js";

declare module "../../0-base/problem.js" {
  interface ProblemValues {
    "total-over": { stage: string; typed: number; over: number; target: number; unit: string };
  }
}

export const totalOver: Rule<"total-over"> = {
  id: "total-over",
  severity: always("warning"),
  title: "Turns that pass the target",
  why: "What comes after the target is never done, so the split on paper is not the split on the floor.",
  source: "the event",
  bad: `${pierNine}event Sprint\n  stage 40 box jump\n«plan Simple for Sprint»\n  Ada 15\n  Olu 15\n  Ada 15\n`,
  good: `${pierNine}event Sprint\n  stage 40 box jump\nplan Simple for Sprint\n  Ada 15\n  Olu 15\n  Ada 10\n`,
  check: (judged) => {
    const simulated = simulatedPlan(judged);
    if (!simulated) return [];
    const { plan, timeline, spanOf } = simulated;
    return plan.event.stages.flatMap(({ name, target, rounds }, index) => {
      const typed = typedIn(plan, index);
      if (target === null || !isOver(typed, target)) return [];
      const step = timeline.stages.find(({ stage }) => stage === index)?.step ?? 0;
      return [problem("total-over", spanOf(step), { stage: name, target, typed, over: typed - target, unit: rounds ? "rounds" : "reps" })];
    });
  },
  message: (values) =>
    `The turns of ${values.stage} come to ${values.typed}, ${values.over} more than the ${values.target} ${values.unit} asked for. Shorten the last turns.`,
};
