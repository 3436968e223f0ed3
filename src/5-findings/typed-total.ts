import { type PlanSpec, repsInPass, type Step } from "../3-plan/plan.js";

/** A repeat of more is one without an end. */
const mostPasses = 1_000;

/** What the turns of a stage come to on paper, in reps or rounds; Infinity where a repeat runs until it is stopped. */
export function typedIn(plan: PlanSpec, stage: number): number {
  const own = stepsIn(plan, stage);
  return own.length === 0 ? 0 : typedUnits(own, plan.event.stages[stage]?.rounds ?? false, new Map());
}

export function isOver(typed: number, target: number): boolean {
  return Number.isFinite(typed) && typed > target;
}

/** What stands in a stage's blocks; all of a plan that has none. */
export function stepsIn({ steps }: PlanSpec, stage: number): readonly Step[] {
  return hasStages(steps) ? stepsOf(steps, stage) : steps;
}

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
