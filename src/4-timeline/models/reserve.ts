/**
 * Reps: a reserve that is spent by reps and comes back at two speeds. Spent effort lies in a fast and a slow pool, both
 * in reps; between events both follow exact exponentials. Critical rate after Monod & Scherrer 1965, two recovery
 * speeds after Harris et al. 1976; fast share and slow constant fitted (see assumptions.ts). Who recovers better than
 * the model's own does so by the slow pool alone (Chorley 2022, Caen 2021); who recovers worse, by both.
 */
import type { Constants } from "../../3-plan/assumptions.js";
import { leastOf, rootBetween, rootOf } from "./solve.js";

/** One athlete's reserve for one movement. Times in s, counts in reps. */
export interface Reserve {
  readonly cycleS: number;
  /** How much slower the last rep before failure is; 0.5 = half as slow again. */
  readonly fade: number;
  /** Most reps in a row, fresh. */
  readonly unbroken: number;
  /** 1 = the model's own speed of recovery; above 1 of the slow pool alone. */
  readonly recovery: number;
  /** Of the fast pool, at least 1: only where a test is beyond what the slow pool can give. */
  readonly fastRecovery: number;
  /** What can be spent before a rep is no longer possible. */
  readonly capacity: number;
  readonly fastShare: number;
  /** 1/s, recovery included. */
  readonly fastRate: number;
  readonly slowRate: number;
}

/** What is spent now, in reps. Changed in place by the functions below: a simulation owns its pools. */
export interface Pools {
  fast: number;
  slow: number;
}

type Untested = Omit<Reserve, "capacity">;
type Tested = Pick<Reserve, "cycleS" | "fade" | "unbroken">;
type Recovery = Pick<Reserve, "recovery" | "fastRecovery">;

const tolerance = 1e-9;

/** The reserve of someone who, fresh, does exactly `unbroken` reps without a pause. */
export function reserveOf(tested: Tested & Partial<Recovery>, constants: Constants): Reserve {
  const { cycleS, fade, unbroken, recovery = 1, fastRecovery = 1 } = tested;
  // Each field by name: all reserves are of one shape then, which the clock's innermost loops are fast with.
  const base: Untested = {
    cycleS,
    fade,
    unbroken,
    recovery,
    fastRecovery,
    fastShare: constants["fast share"],
    fastRate: (Math.min(1, recovery) * fastRecovery) / constants["fast recovery"],
    slowRate: recovery / constants["slow recovery"],
  };
  return { ...base, capacity: capacityOf(base) };
}

/**
 * The capacity that the unbroken set spends exactly. It lies between what the set would spend at its slowest pace and
 * at its fastest: the faster, the less comes back meanwhile.
 */
function capacityOf(base: Untested): number {
  const slowest = spentByUnbroken({ ...base, cycleS: base.cycleS * (1 + base.fade), fade: 0 }, 1);
  const fastest = spentByUnbroken({ ...base, fade: 0 }, 1);
  return rootOf((capacity) => capacity - spentByUnbroken(base, capacity), slowest, fastest);
}

/**
 * What the unbroken set leaves spent at some capacity. Who can do one rep and not two has something left after it, or no second
 * one would ever come: the capacity lies halfway between the two.
 */
function spentByUnbroken(base: Untested, capacity: number): number {
  const after = (reps: number): number => peakOf({ fast: 0, slow: 0 }, { ...base, capacity }, 1, reps);
  return base.unbroken === 1 ? (after(1) + after(2)) / 2 : after(base.unbroken);
}

/** Reps from which on it pays to look whether anything still changes. */
const settledAfter = 1_000;

/** The most that is spent after any of some reps in a row, whatever the capacity allows; the pools stand after the last. */
export function peakOf(
  pools: Pools,
  { cycleS, fade, capacity, fastShare, fastRate, slowRate }: Reserve,
  pace: number,
  reps: number,
): number {
  let { fast, slow } = pools;
  let peak = Number.NEGATIVE_INFINITY;
  for (let rep = 0; rep < reps; rep += 1) {
    const used = (fast + slow) / capacity;
    const seconds = cycleS * (1 + fade * used * used) * pace;
    const [toFast, toSlow] = [fastShare / (seconds * fastRate), (1 - fastShare) / (seconds * slowRate)];
    const before = fast + slow;
    fast = toFast + (fast - toFast) * Math.exp(-fastRate * seconds);
    slow = toSlow + (slow - toSlow) * decayed(slowRate * seconds);
    if (fast + slow > peak) peak = fast + slow;
    // What comes back has caught up with what is spent: no later rep changes anything.
    if (rep > settledAfter && fast + slow === before) break;
  }
  pools.fast = fast;
  pools.slow = slow;
  return peak;
}

/** Below this a short series gives e⁻ˣ to the last bit: its next term is x⁷/5040. */
const shortSeries = 0.02;

/** e⁻ˣ for the slow pool over a rep or two, where calling for an exponential is half of what a day costs. */
function decayed(x: number): number {
  return x < shortSeries ? 1 - x * (1 - x * (1 / 2 - x * (1 / 6 - x * (1 / 24 - x * (1 / 120 - x * (1 / 720)))))) : Math.exp(-x);
}

export function spent(pools: Pools): number {
  return pools.fast + pools.slow;
}

/** Fraction of the reserve that is left, 0…1. */
export function left(pools: Pools, reserve: Reserve): number {
  return Math.min(1, Math.max(0, 1 - spent(pools) / reserve.capacity));
}

/** Seconds the next rep takes: c·(1 + s·(X/K)²). */
export function cycleOf(pools: Pools, reserve: Reserve): number {
  const used = spent(pools) / reserve.capacity;
  return reserve.cycleS * (1 + reserve.fade * used * used);
}

/** One rep spread over `seconds`, from some pools into others or the same. */
export function work(from: Pools, into: Pools, reserve: Reserve, seconds: number, reps = 1): void {
  const rate = reps / seconds;
  into.fast = towards(from.fast, (reserve.fastShare * rate) / reserve.fastRate, reserve.fastRate, seconds);
  into.slow = towards(from.slow, ((1 - reserve.fastShare) * rate) / reserve.slowRate, reserve.slowRate, seconds);
}

/**
 * Reps in a row from `startS`, as many as are possible, wanted and over by `deadlineS`: the clock's innermost loop. Their
 * ends go into `endsS` from `at` on; returns how many.
 */
export function repsInRow(
  pools: Pools,
  reserve: Reserve,
  pace: number,
  wanted: number,
  startS: number,
  deadlineS: number,
  endsS: number[],
  at: number,
): number {
  const { cycleS, fade, capacity, fastShare, fastRate, slowRate } = reserve;
  const limit = capacity * (1 + tolerance);
  let { fast, slow } = pools;
  let atS = startS;
  let done = 0;
  while (done < wanted) {
    const used = (fast + slow) / capacity;
    const seconds = cycleS * (1 + fade * used * used) * pace;
    const [toFast, toSlow] = [fastShare / (seconds * fastRate), (1 - fastShare) / (seconds * slowRate)];
    const nextFast = toFast + (fast - toFast) * Math.exp(-fastRate * seconds);
    const nextSlow = toSlow + (slow - toSlow) * decayed(slowRate * seconds);
    if (nextFast + nextSlow > limit || atS + seconds > deadlineS) break;
    fast = nextFast;
    slow = nextSlow;
    atS += seconds;
    endsS[at + done] = atS;
    done += 1;
  }
  pools.fast = fast;
  pools.slow = slow;
  return done;
}

export function recover(pools: Pools, reserve: Reserve, seconds: number): void {
  if (seconds <= 0) return;
  pools.fast *= Math.exp(-reserve.fastRate * seconds);
  pools.slow *= decayed(reserve.slowRate * seconds);
}

function towards(from: number, goal: number, rate: number, seconds: number): number {
  return goal + (from - goal) * Math.exp(-rate * seconds);
}

/** Whether what is spent is still within the capacity. */
export function within(pools: Pools, reserve: Reserve): boolean {
  return spent(pools) <= mostSpent(reserve);
}

/** What may be spent: a billionth past the capacity is forgiven. A wait aims at half of that, so that rounding is no miss. */
export function mostSpent({ capacity }: Reserve, forgiven = tolerance): number {
  return capacity * (1 + forgiven);
}

export const aimedAt = tolerance / 2;

/** Puts the pools at the limit, their proportion kept: what a missed rep leaves. */
export function exhaust(pools: Pools, reserve: Reserve): void {
  const now = spent(pools);
  if (now <= 0) return;
  pools.fast *= reserve.capacity / now;
  pools.slow *= reserve.capacity / now;
}

/** Fraction of the reserve that is left after a rest. */
export function leftAfter(pools: Pools, reserve: Reserve, restedS: number): number {
  return 1 - spentAfter(pools, reserve, restedS) / reserve.capacity;
}

function spentAfter({ fast, slow }: Pools, { fastRate, slowRate }: Reserve, restedS: number): number {
  return fast * Math.exp(-fastRate * restedS) + slow * Math.exp(-slowRate * restedS);
}

/** Shortest rest in s after which at least that fraction (0…0.99) of the reserve is left. */
export function restUntil(pools: Pools, reserve: Reserve, fraction: number): number {
  const allowed = (1 - fraction) * reserve.capacity;
  return waitUntil((restedS) => spentAfter(pools, reserve, restedS) - allowed);
}

/** A day: longer than any plan. */
const longestWaitS = 86_400;

/** Shortest wait in s after which a falling `excess` is 0; 0 if it is none at once, Infinity if not within a day. */
export function waitUntil(excess: (waitedS: number) => number): number {
  let [lowS, over] = [0, excess(0)];
  if (over <= 0) return 0;
  for (let highS = 4; ; highS = Math.min(longestWaitS, highS * 4)) {
    const then = excess(highS);
    if (then <= 0) return rootBetween((waitedS) => -excess(waitedS), [lowS, -over], [highS, -then], tolerance);
    if (highS === longestWaitS) return Number.POSITIVE_INFINITY;
    [lowS, over] = [highS, then];
  }
}

/** Reps a second that can be kept for ever: K / (φ·τ_f′ + (1−φ)·τ_s′). */
export function criticalRate(reserve: Reserve): number {
  return reserve.capacity / (reserve.fastShare / reserve.fastRate + (1 - reserve.fastShare) / reserve.slowRate);
}

/** Seconds a fresh athlete takes for the unbroken set. */
export function unbrokenTime(reserve: Reserve): number {
  return ceilingState(reserve).seconds;
}

/** The unbroken set; what a single leaves unspent counts as reps that take no time, so that the limit is met. */
function ceilingState(reserve: Reserve): { readonly seconds: number; readonly pools: Pools; readonly reps: number } {
  const pools = { fast: 0, slow: 0 };
  let seconds = 0;
  for (let rep = 0; rep < reserve.unbroken; rep += 1) {
    const cycle = cycleOf(pools, reserve);
    const before = spent(pools);
    work(pools, pools, reserve, cycle);
    seconds += cycle;
    if (rep > settledAfter && spent(pools) === before)
      return { seconds: seconds + (reserve.unbroken - rep - 1) * cycle, pools, reps: reserve.unbroken };
  }
  if (reserve.unbroken > 1) return { seconds, pools, reps: reserve.unbroken };
  const unspent = reserve.capacity - spent(pools);
  exhaust(pools, reserve);
  return { seconds, pools, reps: 1 + unspent };
}

/**
 * The most reps anyone with this reserve can do in `seconds`: the unbroken set, then riding the limit X = K, where
 * u = F/τ_f′ + (K−F)/τ_s′ is linear in F and integrates in closed form. Inside the unbroken set, whole reps plus the
 * part of the next one.
 */
export function ceilingReps(reserve: Reserve, seconds: number): number {
  const { seconds: open, pools, reps } = ceilingState(reserve);
  if (seconds < open) return openingReps(reserve, seconds);
  const { capacity, fastShare, fastRate, slowRate } = reserve;
  const ridden = seconds - open;
  const rate = (1 - fastShare) * fastRate + fastShare * slowRate;
  const settled = (fastShare * slowRate * capacity) / rate;
  const fastIntegral = settled * ridden + ((pools.fast - settled) * (1 - Math.exp(-rate * ridden))) / rate;
  return reps + (fastRate - slowRate) * fastIntegral + slowRate * capacity * ridden;
}

function openingReps(reserve: Reserve, seconds: number): number {
  const pools = { fast: 0, slow: 0 };
  let at = 0;
  for (let rep = 0; ; rep += 1) {
    const cycle = cycleOf(pools, reserve);
    if (at + cycle > seconds) return rep + (seconds - at) / cycle;
    work(pools, pools, reserve, cycle);
    at += cycle;
  }
}

/** A test `in T`: most reps in `seconds`. */
export interface Timed {
  readonly seconds: number;
  readonly reps: number;
}

export interface FittedRecovery extends Recovery {
  /** The tests that no recovery of the slow pool alone explains, each with what the form comes nearest to, in reps. */
  readonly beyond: readonly { readonly test: Timed; readonly nearest: number }[];
}

const slowestRecovery = Math.log(0.02);
const fastestRecovery = Math.log(20);
const stride = 0.2;
/** Of a rep in the test: far finer than any test is. */
const fitPrecision = 1e-6;

/**
 * The recovery for which the ceiling meets the tested numbers: exactly for one test, least squares for several. It is
 * the solution that goes on from 1: the ceiling rises with recovery up to some number of reps and falls beyond, so that
 * a number may be met twice. A test above the rise is beyond the form: both pools are sped up where that meets it.
 */
export function fitRecovery(tested: Tested, timed: readonly Timed[], constants: Constants): FittedRecovery {
  const reps = (recovery: Recovery, { seconds }: Timed): number => ceilingReps(reserveOf({ ...tested, ...recovery }, constants), seconds);
  const slow = (logarithm: number): Recovery => ({ recovery: Math.exp(logarithm), fastRecovery: 1 });
  const both = (logarithm: number): Recovery => ({ recovery: Math.exp(logarithm), fastRecovery: Math.exp(Math.max(0, logarithm)) });
  const alone = timed.map((test) => ({ test, ...meeting((at) => reps(slow(at), test), test.reps) }));
  const beyond = alone.filter(({ met }) => !met).map(({ test, at }) => ({ test, nearest: reps(slow(at), test) }));
  const [first, second] = alone;
  if (!first) return { ...slow(0), beyond };
  if (second) {
    const squares = (at: number): number => timed.reduce((sum, test) => sum + (reps(slow(at), test) - test.reps) ** 2, 0);
    return { ...slow(valleyFrom0(squares)), beyond };
  }
  const faster = first.met || first.at < 0 ? null : meeting((at) => reps(both(at), first.test), first.test.reps);
  return { ...(faster?.met ? both(faster.at) : slow(first.at)), beyond };
}

/** Walks from 0 to where a function first takes a value; where it turns back before, to its turning point. */
function meeting(value: (x: number) => number, wanted: number): { readonly at: number; readonly met: boolean } {
  const opening = wanted - value(0);
  const way = opening >= 0 ? 1 : -1;
  const missing = (x: number): number => way * (wanted - value(way * x));
  const last = way > 0 ? fastestRecovery : -slowestRecovery;
  let [before, here, atHere] = [0, 0, way * opening];
  for (let next = stride; ; next = Math.min(last, next + stride)) {
    const atNext = missing(next);
    const turned = atNext > atHere;
    const peak = turned ? leastOf(missing, before, next) : next;
    if ((turned ? missing(peak) : atNext) <= fitPrecision)
      return { at: way * rootOf((x) => -missing(x), before, peak, fitPrecision), met: true };
    if (turned || next >= last) return { at: way * peak, met: false };
    [before, here, atHere] = [here, next, atNext];
  }
}

/** Walks downhill from 0 to the first valley. */
function valleyFrom0(height: (x: number) => number): number {
  const way = height(stride) < height(0) ? 1 : -1;
  const last = way > 0 ? fastestRecovery : -slowestRecovery;
  let here = 0;
  while (here + stride < last && height(way * (here + stride)) < height(way * here)) here += stride;
  const [a, b] = [Math.max(-stride, here - stride), Math.min(last, here + stride)].map((x) => way * x).sort((x, y) => x - y);
  return leastOf(height, a ?? 0, b ?? 0);
}
