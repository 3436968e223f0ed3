import type { Waited } from "./lanes.js";
import type { Ready } from "./ready.js";
import type { Recording } from "./recording.js";
import type { StageState } from "./stage.js";

/** What athletes' next turns wait for, and since when. */
export type Waits = Map<string, { readonly until: Waited; readonly fromS: number }[]>;

/** Remembers where a run stands: bodies, holds, turns, stages, waits, steps in trouble, sets; the answer puts all back there. */
export function standing(
  ready: Ready,
  stages: StageState[],
  waits: Waits,
  inTrouble: readonly Set<number>[],
  setsBy: number[],
  recording: Recording | null,
): () => void {
  const bodies = ready.bodies.map((body) => body.mark());
  const grips = ready.grips.map(({ tired, atS }) => ({ tired, atS }));
  const passes = [...ready.turns.values()].map((turn) => turn.passes);
  const had = stages.map((stage) => ({ stage, state: { ...stage, repsBy: [...stage.repsBy] } }));
  const waited = [...waits].map(([athlete, own]) => [athlete, [...own]] as const);
  const [troubled, sets] = [inTrouble.map((steps) => [...steps]), [...setsBy]];
  const mark = recording?.mark();
  return () => {
    ready.bodies.forEach((body, at) => body.backTo(bodies[at] ?? body.mark()));
    ready.grips.forEach((grip, at) => Object.assign(grip, grips[at]));
    [...ready.turns.values()].forEach((turn, at) => (turn.passes = passes[at] ?? 0));
    stages.length = had.length;
    for (const { stage, state } of had) {
      Object.assign(stage, { ...state, repsBy: stage.repsBy });
      state.repsBy.forEach((reps, place) => (stage.repsBy[place] = reps));
    }
    refill(waits, waited, (map, [athlete, wait]) => map.set(athlete, [...wait]));
    inTrouble.forEach((steps, at) => refill(steps, troubled[at] ?? [], (set, step) => set.add(step)));
    sets.forEach((nth, place) => (setsBy[place] = nth));
    if (mark) recording?.cutTo(mark);
  };
}

function refill<Collection extends { clear: () => void }, Item>(
  collection: Collection,
  items: readonly Item[],
  add: (into: Collection, item: Item) => void,
): void {
  collection.clear();
  for (const item of items) add(collection, item);
}
