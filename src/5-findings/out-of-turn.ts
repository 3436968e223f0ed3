import { type PlanSpec, turnsOf } from "../3-plan/plan.js";
import type { TurnRun } from "../4-timeline/timeline.js";

/** A turn that is not its workers' own where those of an event take turns; `sameRound`: others had begun its round. */
export interface OutOfTurn {
  readonly run: TurnRun;
  readonly sameRound: boolean;
}

/** The first such turn of each line, in order of time: a turn is a round where the stage is made of rounds. */
export function outOfTurn(plan: PlanSpec, turns: readonly TurnRun[]): readonly OutOfTurn[] {
  if (!plan.event.alternate) return [];
  const found = new Map<number, OutOfTurn>();
  const inOrder = [...turns].sort((a, b) => a.startS - b.startS);
  const cast = ({ athletes }: TurnRun): string =>
    athletes
      .map(({ name }) => name)
      .sort()
      .join(" ");
  const itemOf = itemsOf(plan);
  inOrder.forEach((run, at) => {
    const before = inOrder[at - 1];
    if (!before || found.has(run.step)) return;
    const [item, itemBefore] = [itemOf(run), itemOf(before)];
    const sameRound = item !== null && itemBefore !== null && item > 0 && item >= itemBefore;
    if ((cast(before) === cast(run)) !== sameRound) found.set(run.step, { run, sameRound });
  });
  return [...found.values()];
}

/** Which item of its stage's round a turn is; null where it is a whole round, or the stage has none. */
function itemsOf(plan: PlanSpec): (run: TurnRun) => number | null {
  const turns = new Map(turnsOf(plan.steps).map((turn) => [turn.id, turn]));
  return ({ step, stage }) => {
    const [spec, turn] = [plan.event.stages[stage], turns.get(step)];
    if (!spec?.rounds || !turn || turn.rounds !== null) return null;
    return spec.items.findIndex(({ movement }) => movement === turn.works[0]?.movement);
  };
}
