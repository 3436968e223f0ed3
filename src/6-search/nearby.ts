import { type DraftLane, type DraftPlan, type DraftTurn, type FreeSize, isFree } from "./draft.js";
import { sayable } from "./neighbour.js";
import { shortest, sizeKey } from "./numbers.js";
import { changeAt } from "./places.js";
import { grown } from "./set-size.js";
import { saidOnce } from "./turn-order.js";

/** How far a part of a best moves, in percent, and a rest, in s. */
const percentBy = 2;
const restBy = 5;

/** Every draft with one number of this one a little more or less: a step of a size, for all of a lane who share it; or a rest. */
export function* nearby(draft: DraftPlan): Iterable<DraftPlan> {
  for (const [block, { lanes }] of draft.blocks.entries())
    for (const [lane, own] of lanes.entries())
      for (const next of lanesNearby(own)) yield changeAt(draft, { block, lane }, () => saidOnce(next));
}

function* lanesNearby(lane: DraftLane): Iterable<DraftLane> {
  const sizes = new Map(lane.turns.flatMap(({ size }) => (isFree(size) ? [[sizeKey(size), size] as const] : [])));
  for (const [key, size] of sizes)
    for (const [step] of stepsOf(size).entries())
      for (const way of [1, -1])
        yield { ...lane, turns: lane.turns.map((turn) => (sizeKey(turn.size) === key ? moved(turn, step, way) : turn)) };
  if (typeof lane.rest === "number" && lane.rest > 0)
    for (const by of [restBy, -restBy]) yield { ...lane, rest: sayable(Math.max(0, lane.rest + by)) };
}

function stepsOf(size: FreeSize): readonly number[] {
  return size.kind === "percent" ? size.percents : size.steps;
}

/** A turn with one step of its size moved; those behind it never more than that. */
function moved(turn: DraftTurn, step: number, way: number): DraftTurn {
  const { size } = turn;
  if (size.kind !== "reps") return { ...turn, size: grown(size, way * percentBy, step) };
  let most = Number.POSITIVE_INFINITY;
  const steps = size.steps.map((reps, at) => (most = Math.min(most, Math.max(1, at === step ? reps + way : reps))));
  return { ...turn, size: { ...size, steps: shortest(steps) } };
}
