/** Critical rate from trials to exhaustion: work = W′ + CR·time (Monod & Scherrer 1965), a straight line by least squares. */
import type { Timed } from "./reserve.js";

export interface CriticalRate {
  /** Work units a second that can be kept for ever. */
  readonly rate: number;
  /** Work units on top of that. */
  readonly stock: number;
}

/** Null with fewer than two different times. Work may be reps or joules: the answer is in the same unit. */
export function fitCriticalRate(trials: readonly Timed[]): CriticalRate | null {
  const count = trials.length;
  const meanTime = trials.reduce((sum, { seconds }) => sum + seconds, 0) / count;
  const meanWork = trials.reduce((sum, { reps }) => sum + reps, 0) / count;
  const spread = trials.reduce((sum, { seconds }) => sum + (seconds - meanTime) ** 2, 0);
  if (count < 2 || spread === 0) return null;
  const together = trials.reduce((sum, { seconds, reps }) => sum + (seconds - meanTime) * (reps - meanWork), 0);
  const rate = together / spread;
  return { rate, stock: meanWork - rate * meanTime };
}
