import type { Item } from "../3-plan/event.js";
import type { Turn } from "../3-plan/plan.js";

/** How far a lane is in a round that its turns share out: the movement that is next, and its reps done. */
export interface SharedRound {
  readonly item: number;
  readonly done: number;
}

/** The reps of a movement that make it done in a round, in a turn of these: where each does the number, all of theirs. */
export function askedIn(item: Item, { who, works }: Turn): number {
  const each = item.how === "each" && works[0]?.rhythm === "each";
  return (item.count ?? 1) * (each ? who.length : 1);
}

/**
 * Goes on with the rounds under way, by stage, by a turn of so many reps; true where that makes a round whole. A turn of another
 * movement than the next, and reps beyond its number, count for nothing.
 */
export function makesWhole(under: Map<number, SharedRound>, stage: number, items: readonly Item[], turn: Turn, reps: number): boolean {
  const { item: at, done } = under.get(stage) ?? { item: 0, done: 0 };
  const item = items[at];
  if (!item || turn.works[0]?.movement !== item.movement) return false;
  const isDone = done + reps >= askedIn(item, turn);
  const whole = isDone && at + 1 === items.length;
  under.set(stage, whole ? { item: 0, done: 0 } : isDone ? { item: at + 1, done: 0 } : { item: at, done: done + reps });
  return whole;
}
