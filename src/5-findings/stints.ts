import type { Segment } from "../4-timeline/timeline.js";

/** Who puts down for less has not had a break: common practice, no source; a second off the hold would get round any limit. */
export const shortestBreakS = 5;

/** Time on the hold without a break, handovers that were held through included. */
export interface Stint {
  readonly athlete: string;
  readonly startS: number;
  readonly endS: number;
  readonly steps: readonly number[];
}

/** Each athlete's stints on the hold, in order. */
export function stintsOf(segments: readonly Segment[]): readonly Stint[] {
  const stints: Stint[] = [];
  for (const { athlete, activity, startS, endS, step } of segments) {
    if (activity !== "hold") continue;
    const last = stints.at(-1);
    const steps = step === null ? [] : [step];
    if (last && last.athlete === athlete && startS < last.endS + shortestBreakS - 1e-6)
      stints[stints.length - 1] = { ...last, endS: Math.max(last.endS, endS), steps: [...last.steps, ...steps] };
    else stints.push({ athlete, startS, endS, steps });
  }
  return stints;
}
