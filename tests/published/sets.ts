/** Sets to failure with rests between, by the reserve model: what studies of repetitions over sets measured. */
import { constantsWith } from "../../src/3-plan/assumptions.js";
import { cycleOf, recover, type Reserve, reserveOf, within, work } from "../../src/4-timeline/models/reserve.js";

const constants = constantsWith(new Map());

/** Sets to failure (at most `cap` reps each, the fraction of the rep that could not be ended counted) with rests between. */
export function sets(reserve: Reserve, restS: number, count: number, cap: number): readonly number[] {
  const pools = { fast: 0, slow: 0 };
  return Array.from({ length: count }, () => {
    let done = 0;
    while (done < cap) {
      const seconds = cycleOf(pools, reserve);
      const next = { ...pools };
      work(next, next, reserve, seconds);
      if (within(next, reserve)) {
        Object.assign(pools, next);
        done += 1;
        continue;
      }
      const part = partPossible(pools, reserve, seconds);
      work(pools, pools, reserve, seconds * part, part);
      done += part;
      break;
    }
    recover(pools, reserve, restS);
    return Math.min(done, cap);
  });
}

function partPossible(pools: { fast: number; slow: number }, reserve: Reserve, seconds: number): number {
  let [low, high] = [0, 1];
  for (let step = 0; step < 50; step += 1) {
    const part = (low + high) / 2;
    const next = { ...pools };
    if (part > 0) work(next, next, reserve, seconds * part, part);
    if (within(next, reserve)) low = part;
    else high = part;
  }
  return low;
}

/** The 10RM, as a whole number of reps and the part of one: a fresh athlete whose reserve lasts `reps`, cycle 2.7 s. */
export function lasting(reps: number, recovery = 1): Reserve {
  const low = reserveOf({ cycleS: 2.7, fade: 0.5, unbroken: Math.floor(reps), recovery }, constants);
  const high = reserveOf({ cycleS: 2.7, fade: 0.5, unbroken: Math.floor(reps) + 1, recovery }, constants);
  const part = reps - Math.floor(reps);
  return { ...low, capacity: low.capacity + part * (high.capacity - low.capacity) };
}
