import type { Constants } from "../3-plan/assumptions.js";
import type { PlanSpec } from "../3-plan/plan.js";
import type { Abilities } from "./ability.js";
import { altered, type Chance, Draw } from "./draw.js";
import { Simulator } from "./simulator.js";

/** The seed of every draw that nobody seeds: two plans shown side by side have met the same days. */
export const usualSeed = 20_260_314;
/** Draws behind a number beside a line, and behind a comparison. */
const drawsBesideLine = 1_000;
export const drawsToCompare = 10_000;

/** So many days that no search has met: a plan is told by these, for on the days it was chosen by it looks better than it is. */
export function unseenDays(days: number): { readonly from: number; readonly to: number } {
  return { from: unseenFrom, to: unseenFrom + days };
}
const unseenFrom = 20_000;

/** A plan's scores on many days. */
export interface Days {
  readonly kind: "time" | "reps";
  readonly capS: number | null;
  /** By draw: seconds to the finish, Infinity where a target is never reached, the cap left out of account; or reps by the cap. */
  readonly scores: Float64Array;
  /** In how many draws somebody missed in a step, or dropped a hold. */
  readonly missed: ReadonlyMap<number, number>;
  readonly dropped: ReadonlyMap<number, number>;
  /** In how many draws somebody missed or dropped anywhere. */
  readonly troubled: number;
}

export interface Spread {
  readonly draws: number;
  readonly p10: number;
  readonly p50: number;
  readonly p90: number;
  /** Chance to reach every target inside the cap; 1 for reps. */
  readonly finishes: number;
}

/**
 * What the days beside a line may come to, in reps: what a turn or a rest takes, looking for the moment at which one can begin,
 * and a miss or a dropped hold with the wait after it. And the fewest days: a very long plan is drawn on fewer.
 */
const mostWork = 2_400_000;
const turnWork = 16;
const lookWork = 32;
const troubleWork = 100;
const fewestDays = 12;

interface RunOptions {
  readonly seed?: number;
  readonly from?: number;
  readonly to?: number;
  /** What is left of capacity and hold time by an athlete's place and a subject's number, 0…1; all of it without. */
  readonly tired?: Chance["ability"] | null;
}

/** Runs a plan on the days `from` to `to` (not included) of a seed. */
export function runDays(
  plan: PlanSpec,
  abilities: Abilities,
  constants: Constants,
  { seed = usualSeed, from = 0, to = drawsBesideLine, tired = null }: RunOptions = {},
): Days {
  const kind = plan.event.score;
  // A day's time may lie past the cap; work without a target has none, and would go on for ever.
  const ends = kind === "time" && plan.event.stages.every(({ target }) => target !== null);
  const simulator = new Simulator(plan, abilities, constants, ends ? null : plan.event.capS);
  const draw = new Draw(seed);
  const chance = tired ? altered(draw, { ability: tired }) : draw;
  const { reps: planned } = simulator.run();
  const { steps, lookedFor, misses, drops } = simulator;
  const work = turnWork * steps + lookWork * lookedFor + troubleWork * (misses + drops) + planned;
  const atOnce = (mostWork * Math.max(1, (to - from) / drawsBesideLine)) / Math.max(1, work);
  const days = Math.min(to - from, Math.max(fewestDays, Math.floor(atOnce)));
  const scores = new Float64Array(days);
  const missed = new Map<number, number>();
  const dropped = new Map<number, number>();
  let troubled = 0;
  for (let at = from; at < from + days; at += 1) {
    draw.go(at);
    const { endS, finished, reps } = simulator.run(chance);
    scores[at - from] = kind === "reps" ? reps : finished ? endS : Number.POSITIVE_INFINITY;
    if (simulator.missed.size + simulator.dropped.size > 0) troubled += 1;
    for (const step of simulator.missed) missed.set(step, (missed.get(step) ?? 0) + 1);
    for (const step of simulator.dropped) dropped.set(step, (dropped.get(step) ?? 0) + 1);
  }
  return { kind, capS: plan.event.capS, scores, missed, dropped, troubled };
}

/** Percentiles of the scores as they are read: of a time the 10th is a fast day, of reps a poor one. */
export function spreadOf({ kind, capS, scores }: Days): Spread {
  const sorted = scores.toSorted();
  const at = (share: number): number => sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))] ?? Number.NaN;
  const inside =
    kind === "reps" ? scores.length : scores.reduce((count, score) => count + (score <= (capS ?? Number.MAX_VALUE) ? 1 : 0), 0);
  return { draws: scores.length, p10: at(0.1), p50: at(0.5), p90: at(0.9), finishes: inside / scores.length };
}

/** Of days, on how many somebody misses or drops a hold anywhere in the plan, 0…1. */
export function troubledShare({ troubled, scores }: Days): number {
  return troubled / scores.length;
}

/** Of days: a plan that runs past its cap more often than this is worth a word. */
const seldom = 0.1;

/**
 * Whether more than one day in ten runs past the cap. Draws no more days than it takes to tell 5 from 20 in a hundred
 * with one error in twenty (the sequential test of Wald 1945), a thousand at most.
 */
export function oftenPastCap(plan: PlanSpec, abilities: Abilities, constants: Constants): boolean {
  const capS = plan.event.capS ?? Number.POSITIVE_INFINITY;
  const [rare, often, sure] = [0.05, 0.2, Math.log(19)];
  const simulator = new Simulator(plan, abilities, constants, null);
  const draw = new Draw(usualSeed);
  let [past, evidence, day] = [0, 0, 0];
  while (day < drawsBesideLine && Math.abs(evidence) < sure) {
    draw.go(day);
    const { endS, finished } = simulator.run(draw);
    const over = !finished || endS > capS;
    if (over) past += 1;
    evidence += over ? Math.log(often / rare) : Math.log((1 - often) / (1 - rare));
    day += 1;
  }
  return evidence >= sure || (evidence > -sure && past > seldom * day);
}

/** By how much a score is better than another, in its own unit: less time, or more reps. */
export function gainOf(kind: Days["kind"], score: number, than: number): number {
  return kind === "time" ? than - score : score - than;
}

/** The chance that the first beats the second, day by day on the same days; a draw between them counts half. */
export function chanceToBeat(first: Days, second: Days): number {
  let wins = 0;
  const better = first.kind === "time" ? -1 : 1;
  const days = Math.min(first.scores.length, second.scores.length);
  for (let day = 0; day < days; day += 1) {
    const [score, other] = [first.scores[day] ?? 0, second.scores[day] ?? 0];
    wins += score === other ? 0.5 : Math.sign(score - other) === better ? 1 : 0;
  }
  return wins / days;
}
