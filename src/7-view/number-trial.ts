import { percent } from "../0-base/quantity.js";
import type { Constants } from "../3-plan/assumptions.js";
import type { PlanSpec } from "../3-plan/plan.js";
import type { Abilities } from "../4-timeline/ability.js";
import { gainOf, runDays, spreadOf, troubledShare } from "../4-timeline/spread.js";
import { dayScore } from "./spread-words.js";

/** What a plan comes to with another number in its place. */
export interface TrialPoint {
  readonly value: number;
  /** s, or reps, of the middle day; Infinity where it is not done. */
  readonly middle: number;
  /** Of days, on how many somebody misses or drops a hold. */
  readonly troubled: number;
  /** In words, for who does not see the curve. */
  readonly words: string;
}

/** Judges a plan with a value, on days that are the same for every value. */
export function trialPoint(value: number, plan: PlanSpec, abilities: Abilities, constants: Constants, days: number): TrialPoint {
  const drawn = runDays(plan, abilities, constants, { to: days });
  const [middle, troubled] = [spreadOf(drawn).p50, troubledShare(drawn)];
  const score = `${dayScore(drawn.kind, middle)}${drawn.kind === "reps" ? " reps" : ""}`;
  return { value, middle, troubled, words: `${value}: ${score}, a miss or a drop on ${percent(troubled)} of days` };
}

/** Of two values this much trouble, 0…1, is the same. */
const sameTrouble = 0.05;

/** The value with the best middle day, of those that bring no more trouble than the one that stands; that one where none is better. */
export function bestValue(points: readonly TrialPoint[], now: number, kind: "time" | "reps"): number {
  const own = points.find(({ value }) => value === now);
  if (!own) return now;
  const borne = points.filter(({ troubled, middle }) => Number.isFinite(middle) && troubled <= own.troubled + sameTrouble);
  return borne.reduce((best, one) => (gainOf(kind, one.middle, best.middle) > 0 || !Number.isFinite(best.middle) ? one : best), own).value;
}
