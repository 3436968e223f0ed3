import { type DraftLane, type DraftTurn, mostTurns } from "./draft.js";

/**
 * Of a round's movement that turns share out: some reps of a turn, or all, go to the turn after it, or the other way by the
 * sign of `step`; or half of them to somebody else. Null where that cannot be.
 */
export function sharedOtherwise(lane: DraftLane, at: number, step: number, leastSet: number, random: () => number): DraftLane | null {
  const { turns } = lane;
  const [turn, next] = [turns[at], turns[at + 1]];
  if (turn?.size.kind !== "item") return null;
  const { size } = turn;
  const sized = (one: DraftTurn, reps: number): DraftTurn => ({ ...one, size: { ...size, reps } });
  if (next?.size.kind === "item" && next.size.item === size.item && random() < 0.8) {
    const [giver, taker] = step > 0 ? [size.reps, next.size.reps] : [next.size.reps, size.reps];
    const moved = random() < 0.3 ? giver : Math.min(giver, Math.abs(step));
    const [own, theirs] = step > 0 ? [giver - moved, taker + moved] : [taker + moved, giver - moved];
    const made = [...(own > 0 ? [sized(turn, own)] : []), ...(theirs > 0 ? [sized(next, theirs)] : [])];
    return { ...lane, turns: turns.toSpliced(at, 2, ...made) };
  }
  const half = Math.floor(size.reps / 2);
  if (half < leastSet || turns.length >= mostTurns) return null;
  const other = turns[Math.floor(random() * turns.length)] ?? turn;
  if (other.who.join() === turn.who.join()) return null;
  return { ...lane, turns: turns.toSpliced(at, 1, sized(turn, size.reps - half), sized({ ...turn, who: other.who }, half)) };
}

/** Parts of one movement that the same athletes do one after the other, as one. */
export function inOneGo(turns: readonly DraftTurn[]): readonly DraftTurn[] {
  return turns.reduce<readonly DraftTurn[]>((before, turn) => {
    const last = before.at(-1);
    const same = last && last.who.join() === turn.who.join() && last.holders.join() === turn.holders.join();
    if (!same || last.size.kind !== "item" || turn.size.kind !== "item" || last.size.item !== turn.size.item) return [...before, turn];
    return [...before.slice(0, -1), { ...last, size: { ...last.size, reps: last.size.reps + turn.size.reps } }];
  }, []);
}

/** Whether turns that share rounds out come to whole ones: each movement in its order, to its number. */
export function isWhole(turns: readonly DraftTurn[], items: number): boolean {
  let [at, done] = [0, 0];
  for (const { size } of turns) {
    if (size.kind !== "item") continue;
    if (size.item !== at) return false;
    done += size.reps;
    if (done >= size.of) [at, done] = done === size.of ? [(at + 1) % items, 0] : [-1, 0];
  }
  return at === 0 && done === 0;
}
