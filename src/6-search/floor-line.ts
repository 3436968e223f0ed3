/**
 * What some work takes of the floor at least: lines under the seconds that an athlete stands in a lane — changes of hands,
 * reps, pauses inside a set — for n reps in T seconds.
 *
 * Derivation. An athlete's work falls into stints: m reps with nobody of the lane between. Let S be the slow pool at a
 * stint's start, φ(m, S) the seconds the stint takes at least, h those of the change of hands before it, ℓ the seconds until
 * the next change. For a rising V and a price κ of time let λ be the least of
 *   ( h + φ(m, S) + V(S′) − V(S) + κℓ ) / m        over m, S and ℓ, S′ being the slow pool when the next stint starts.
 * Summed over the stints V telescopes from V(0) = 0 to at most V(K), and Σℓ is at most T less the floor taken:
 *   floor ≥ λn − κ(T − floor) − V(K),   so   floor ≥ (λn − κT − V(K)) / (1 − κ).
 * Every V and κ gives such a line; the highest over a grid counts. V(S) = βS + ½αS²; the best ℓ has a closed form: rest until
 * S is y with αy² + βy = κτ, or not at all.
 *
 * φ starts with an empty fast pool and pauses only where no rep is possible. A fuller pool and a slower partner only
 * lengthen it; a pause that nothing forces shortens later reps by less than it lasts, and lowers V by less, as long as the
 * slope of V is kept small (`mostSlope`). A stint longer than is looked at falls into pieces, which cost no change of hands.
 * S is looked at on a grid, so a line is lowered by `slack`.
 */
import { type Reserve, spent, work } from "../4-timeline/models/reserve.js";

/** One line: floor ≥ (`perRep`·n − `perSecond`·T − `once`) / (1 − `perSecond`), in s. */
export interface FloorLine {
  readonly perRep: number;
  readonly perSecond: number;
  readonly once: number;
}

/** How somebody works: the least a rep can take, what is added to each, and the seconds before a stint. */
export interface Stints {
  readonly leastS: number;
  readonly addedS: number;
  readonly changeS: number;
  /** Reps of a stint at most; null: any number. `whole`: always so many. */
  readonly most: number | null;
  readonly whole: boolean;
}

const starts = 40;
const slopes = [0, 0.1, 0.2, 0.35, 0.5, 0.7, 1];
const prices = [0, 0.02, 0.05, 0.1, 0.15, 0.2, 0.3, 0.4, 0.5];
const slack = 0.003;

/** The lines of one athlete at one movement. */
export function floorLines(reserve: Reserve, stints: Stints): readonly FloorLine[] {
  const { capacity, slowRate } = reserve;
  const runs = Array.from({ length: starts + 1 }, (_, at) => stintsFrom((at / starts) * capacity, reserve, stints));
  const steepest = mostSlope(reserve);
  const kept = Math.exp(-slowRate * stints.changeS);
  const lines: FloorLine[] = [];
  // V by its slope at K, and how much of that it has at 0.
  for (const atK of slopes) {
    for (const share of atK === 0 ? [0] : [0, 0.5, 1]) {
      const beta = atK * share * steepest;
      const alpha = (atK * (1 - share) * steepest) / capacity;
      const value = (slow: number): number => slow * (beta + (alpha * slow) / 2);
      for (const perSecond of prices) {
        const rested = restedTo(alpha, beta, perSecond / slowRate);
        let least = Number.POSITIVE_INFINITY;
        for (const [at, run] of runs.entries()) {
          const before = value((at / starts) * capacity);
          for (const { reps, seconds, slow, changeS } of run) {
            const next = changeS > 0 ? slow * kept : slow;
            const waitS = perSecond > 0 && next > rested ? Math.log(next / rested) / slowRate : 0;
            const cost = changeS + seconds + value(Math.min(next, rested)) - before + perSecond * waitS;
            least = Math.min(least, cost / reps);
          }
        }
        lines.push({ perRep: (1 - slack) * least, perSecond, once: value(capacity) });
      }
    }
  }
  return lines;
}

/** The least floor of n reps in some seconds: the highest of the lines. */
export function leastFloor(lines: readonly FloorLine[], reps: number, seconds: number): number {
  let most = 0;
  for (const { perRep, perSecond, once } of lines) most = Math.max(most, (perRep * reps - perSecond * seconds - once) / (1 - perSecond));
  return most;
}

interface Stint {
  readonly reps: number;
  readonly seconds: number;
  /** Before it: none before a piece of a longer one. */
  readonly changeS: number;
  /** The slow pool after it. */
  readonly slow: number;
}

/** Up to so many times the best set, and so many reps, are looked at as one. */
const [longest, longestReps] = [1.5, 100];

function stintsFrom(slow: number, reserve: Reserve, { leastS, addedS, changeS, most: asked, whole }: Stints): readonly Stint[] {
  const { cycleS, fade, capacity, unbroken, fastShare, fastRate, slowRate } = reserve;
  const found: Stint[] = [];
  const pools = { fast: 0, slow };
  let atS = 0;
  const most = asked ?? Math.min(longestReps, Math.ceil(longest * unbroken) + 1);
  for (let reps = 1; reps <= most; reps += 1) {
    const used = Math.min(1, spent(pools) / capacity);
    // What comes back at most while the rep is done: the fast pool as full as it makes it.
    const rate = (pools.fast + fastShare) * fastRate + Math.max(0, capacity - pools.fast - fastShare) * slowRate;
    const own = Math.max(cycleS * (1 + fade * used * used), leastS) + addedS;
    // At the limit no more is spent than comes back.
    const seconds = Math.max(own, (spent(pools) + 1 - capacity) / rate);
    work(pools, pools, reserve, seconds);
    atS += seconds;
    const piece = asked === null && reps === most;
    if (!whole || reps === most) found.push({ reps, seconds: atS, changeS: piece ? 0 : changeS, slow: pools.slow });
  }
  return found;
}

/** Where a rest ends: αy² + βy = κτ; infinite where no rest is worth its price. */
function restedTo(alpha: number, beta: number, priced: number): number {
  if (priced === 0) return 0;
  if (alpha === 0) return beta === 0 ? Number.POSITIVE_INFINITY : priced / beta;
  return (-beta + Math.sqrt(beta * beta + 4 * alpha * priced)) / (2 * alpha);
}

/**
 * The steepest V for which a pause inside a stint does not pay: what it saves of V, S/τ·V′ at most, and of later reps, which
 * is 2·fade·φ at most for each second, are no more than the second.
 */
function mostSlope({ capacity, slowRate, fade, fastShare }: Reserve): number {
  return Math.max(0, 1 - 2 * fade * fastShare) / (capacity * slowRate);
}
