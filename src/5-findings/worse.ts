import type { Constants } from "../3-plan/assumptions.js";
import type { PlanSpec } from "../3-plan/plan.js";
import type { Abilities } from "../4-timeline/ability.js";
import { gainOf, runDays, spreadOf, troubledShare } from "../4-timeline/spread.js";
import { repsDone, type Timeline } from "../4-timeline/timeline.js";

/** Seconds that nobody would notice. */
const noticeableS = 0.5;

/** Whether a change of plan costs something on paper: a slower time, fewer reps, a stage not done, one more miss or drop. */
export function worsens(before: Timeline, after: Timeline): boolean {
  return losesScore(before, after) || troublesIn(after) > troublesIn(before);
}

function losesScore(before: Timeline, after: Timeline): boolean {
  const { score } = before;
  if (score.kind === "reps") return after.score.value < score.value;
  if (score.finished) return !after.score.finished || after.score.value > score.value + noticeableS;
  // Neither is done: what counts is how far they came, then how soon.
  if (after.score.finished || repsDone(after) > repsDone(before)) return false;
  return repsDone(after) < repsDone(before) || after.endS > before.endS + noticeableS;
}

/** Misses and drops that are expected. */
export function troublesIn({ turns }: Timeline): number {
  return turns.reduce((sum, { misses, drops }) => sum + misses.length + drops.length, 0);
}

/** Days on which a change is tried, and how much more trouble on them, 0…1, is none. */
const triedDays = 60;
const sameTrouble = 0.05;

/** Whether a change of plan costs something on days that differ: the middle day's score, or more days with a miss or a drop. */
export function worsensDays(before: PlanSpec, after: PlanSpec, abilities: Abilities, constants: Constants): boolean {
  const [was, is] = [before, after].map((plan) => runDays(plan, abilities, constants, { to: triedDays }));
  if (!was || !is) return false;
  const lost = -gainOf(was.kind, spreadOf(is).p50, spreadOf(was).p50);
  return lost > noticeableS || troubledShare(is) > troubledShare(was) + sameTrouble;
}
