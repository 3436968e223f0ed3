import type { Timeline } from "../4-timeline/timeline.js";

/** Seconds that nobody would notice. */
const noticeableS = 0.5;

/** Whether a change of plan costs something: a slower time, fewer reps, a stage not done, one more miss or drop. */
export function worsens(before: Timeline, after: Timeline): boolean {
  if (before.score.finished && !after.score.finished) return true;
  const [was, is] = [before.score.value, after.score.value];
  if (before.score.kind === "reps" ? is < was : before.score.finished && is > was + noticeableS) return true;
  return troublesIn(after) > troublesIn(before);
}

/** Misses and drops that are expected. */
export function troublesIn({ turns }: Timeline): number {
  return turns.reduce((sum, { misses, drops }) => sum + misses.length + drops.length, 0);
}
