/** One-rep maximum from a set, and back. Epley 1985; Brzycki 1993. Loads in any one unit. */

export function epleyMax(load: number, reps: number): number {
  return load * (1 + reps / 30);
}

/** Only below 37 reps. */
export function brzyckiMax(load: number, reps: number): number {
  return (36 * load) / (37 - reps);
}

const bothUpTo = 10;

/** The mean of Epley and Brzycki up to 10 reps, Epley above: linear equations go wrong past ten (Reynolds et al. 2006). */
export function maxFrom(load: number, reps: number): number {
  return reps > bothUpTo ? epleyMax(load, reps) : (epleyMax(load, reps) + brzyckiMax(load, reps)) / 2;
}

/** Reps at a load, at least 0: the mean of both equations where that is at most 10, Epley's above. */
export function repsAt(load: number, max: number): number {
  const epley = 30 * (max / load - 1);
  const brzycki = 37 - (36 * load) / max;
  const mean = (epley + brzycki) / 2;
  return Math.max(0, mean > bothUpTo ? epley : mean);
}
