import type { AthleteTotals, Segment } from "./timeline.js";

/** Each athlete's segments in order of time, cut to the plan's end and without a gap: what is not said is rest. */
export function gapless(segments: readonly Segment[], athletes: readonly string[], endS: number): readonly Segment[] {
  return athletes.flatMap((athlete) => {
    const filled: Segment[] = [];
    let atS = 0;
    const rest = (untilS: number): void => {
      if (untilS > atS) filled.push({ athlete, activity: "rest", startS: atS, endS: untilS, step: null, subject: null, reps: 0 });
    };
    const own = segments
      .filter((segment) => segment.athlete === athlete && segment.startS < endS && segment.endS > segment.startS)
      .sort((a, b) => a.startS - b.startS || a.endS - b.endS);
    for (const segment of own) {
      rest(segment.startS);
      filled.push(segment.endS > endS ? { ...segment, endS } : segment);
      atS = Math.max(atS, Math.min(segment.endS, endS));
    }
    rest(endS);
    return filled;
  });
}

/** Two stretches of one athlete that lie over each other, longest first wins: the first such pair by time, or none. */
export function overlaps(segments: readonly Segment[]): readonly { readonly first: Segment; readonly second: Segment }[] {
  const found: { first: Segment; second: Segment }[] = [];
  let last: Segment | null = null;
  for (const segment of segments) {
    if (segment.activity === "rest") continue;
    if (last && last.athlete === segment.athlete && segment.startS < last.endS - 1e-6) found.push({ first: last, second: segment });
    if (!last || last.athlete !== segment.athlete || segment.endS > last.endS) last = segment;
  }
  return found;
}

/** `work`, `hold` and `rest` of an athlete sum to the plan's duration; where two lie over each other, work counts first. */
export function totalsOf(segments: readonly Segment[], athletes: readonly string[], endS: number): readonly AthleteTotals[] {
  const all = segments.reduce((sum, { reps }) => sum + reps, 0);
  return athletes.map((name) => {
    const own = segments.filter(({ athlete }) => athlete === name);
    const work = covered(own.filter(({ activity }) => activity === "work"));
    const busy = covered(own.filter(({ activity }) => activity === "work" || activity === "hold"));
    const reps = own.reduce((sum, segment) => sum + segment.reps, 0);
    return { name, reps, work, hold: busy - work, rest: endS - busy, share: all > 0 ? reps / all : 0 };
  });
}

/** Seconds covered by segments in order of their start. */
function covered(segments: readonly Segment[]): number {
  let total = 0;
  let untilS = 0;
  for (const { startS, endS } of segments) {
    total += Math.max(0, endS - Math.max(startS, untilS));
    untilS = Math.max(untilS, endS);
  }
  return total;
}
