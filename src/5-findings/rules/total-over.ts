import { problem } from "../../0-base/problem.js";
import { repsInPass, type Step } from "../../3-plan/plan.js";
import { pierNine } from "../examples.js";
import { simulatedPlan } from "../nodes.js";
import { always, type Rule } from "../rule.js";

declare module "../../0-base/problem.js" {
  interface ProblemValues {
    "total-over": { stage: string; typed: number; over: number; target: number; unit: string };
  }
}

/** A repeat of more is one without an end. */
const mostPasses = 1_000;

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
    const inBlocks = hasStages(plan.steps);
    return plan.event.stages.flatMap(({ name, target, rounds }, index) => {
      const own = inBlocks ? stepsOf(plan.steps, index) : plan.steps;
      const typed = own.length === 0 || target === null ? 0 : typedUnits(own, rounds, new Map());
      if (target === null || !Number.isFinite(typed) || typed <= target) return [];
      const step = timeline.stages.find(({ stage }) => stage === index)?.step ?? 0;
      return [problem("total-over", spanOf(step), { stage: name, target, typed, over: typed - target, unit: rounds ? "rounds" : "reps" })];
    });
  },
  message: (values) =>
    `The turns of ${values.stage} come to ${values.typed}, ${values.over} more than the ${values.target} ${values.unit} asked for. Shorten the last turns.`,
};

function hasStages(steps: readonly Step[]): boolean {
  return steps.some(
    (step) =>
      step.kind === "stage" ||
      (step.kind === "lanes"
        ? step.lanes.some(({ body }) => hasStages(body))
        : step.kind !== "turn" && step.kind !== "rest" && hasStages(step.body)),
  );
}

/** What stands in the blocks of a stage, wherever they stand; what repeats it repeats. */
function stepsOf(steps: readonly Step[], stage: number): readonly Step[] {
  return steps.flatMap((step): readonly Step[] => {
    switch (step.kind) {
      case "turn":
      case "rest":
        return [];
      case "lanes":
        return step.lanes.flatMap(({ body }) => stepsOf(body, stage));
      case "stage":
        return step.stage === stage ? step.body : [];
      case "repeat":
        return [{ ...step, body: stepsOf(step.body, stage) }];
      case "window":
        return stepsOf(step.body, stage);
    }
  });
}

/** What the steps come to if nothing cuts them; Infinity where a repeat runs until it is stopped. */
function typedUnits(steps: readonly Step[], rounds: boolean, passes: Map<number, number>): number {
  let units = 0;
  for (const step of steps) {
    if (step.kind === "turn") {
      const pass = passes.get(step.id) ?? 0;
      passes.set(step.id, pass + 1);
      if (rounds) units += step.rounds ?? 0;
      else
        for (const work of step.works)
          units += (work.rhythm === "each" ? step.who : step.who.slice(0, 1)).reduce(
            (sum, _, place) => sum + repsInPass(work, place, pass),
            0,
          );
    } else if (step.kind === "repeat") {
      if (step.body.length === 0) continue;
      if (step.times === null || step.times > mostPasses) return Number.POSITIVE_INFINITY;
      for (let pass = 0; pass < step.times; pass += 1) units += typedUnits(step.body, rounds, passes);
    } else if (step.kind === "lanes") for (const { body } of step.lanes) units += typedUnits(body, rounds, passes);
    else if (step.kind !== "rest") units += typedUnits(step.body, rounds, passes);
  }
  return units;
}
