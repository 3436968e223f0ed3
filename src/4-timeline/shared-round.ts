import type { Item } from "../3-plan/event.js";
import type { Turn } from "../3-plan/plan.js";

/** How far a lane is in a round that its turns share out: the movement that is next, and its reps done. */
export interface SharedRound {
  readonly item: number;
  readonly done: number;
}

export const unbegun: SharedRound = { item: 0, done: 0 };

/** The reps of a movement that make it done in a round, in a turn of these: where each does the number, all of theirs. */
export function askedIn(item: Item, { who, works }: Turn): number {
  const each = item.how === "each" && works[0]?.rhythm === "each";
  return (item.count ?? 1) * (each ? who.length : 1);
}

/**
 * A round after a turn of so many reps, and whether that makes it whole. A turn of another movement than the next, and reps
 * beyond its number, count for nothing.
 */
export function afterTurn(
  round: SharedRound,
  items: readonly Item[],
  turn: Turn,
  reps: number,
): { readonly round: SharedRound; readonly whole: boolean } {
  const item = items[round.item];
  if (!item || turn.works[0]?.movement !== item.movement) return { round, whole: false };
  const done = round.done + reps;
  if (done < askedIn(item, turn)) return { round: { ...round, done }, whole: false };
  const whole = round.item + 1 === items.length;
  return { round: whole ? unbegun : { item: round.item + 1, done: 0 }, whole };
}
