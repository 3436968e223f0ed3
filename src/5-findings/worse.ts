import { once } from "../0-base/once.js";
import type { Constants } from "../3-plan/assumptions.js";
import type { PlanSpec } from "../3-plan/plan.js";
import { simulate } from "../4-timeline/simulate.js";
import { type Days, gainOf, runDays, spreadOf, troubledShare } from "../4-timeline/spread.js";
import { repsDone, type Timeline } from "../4-timeline/timeline.js";
import type { Simulated } from "./nodes.js";

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

/** What may be tried on a plan: each try costs whole runs, of which a miss or a drop takes as long as ten turns. */
const mostTried = 500;
const troubleTurns = 10;

/** Whether a plan is too long, or too much goes wrong in it, for changes to be tried on it. */
export function tooLongToTry(timeline: Timeline): boolean {
  return timeline.turns.length + troubleTurns * troublesIn(timeline) > mostTried;
}

/** Days on which a change is tried, and how much more trouble on them, 0…1, is none. */
const triedDays = 60;
const sameTrouble = 0.05;

/** Whether changes of a plan cost something, on paper or on days that differ: the middle day's score, or more days in trouble. */
export function costsOf({ plan, timeline, abilities }: Simulated, constants: Constants): (after: PlanSpec) => boolean {
  const daysOf = (one: PlanSpec): Days => runDays(one, abilities, constants, { to: triedDays });
  const before = once(() => daysOf(plan));
  return (changed) =>
    tooLongToTry(timeline) || worsens(timeline, simulate(changed, abilities, constants)) || worsensDays(before(), daysOf(changed));
}

function worsensDays(was: Days, is: Days): boolean {
  const lost = -gainOf(was.kind, spreadOf(is).p50, spreadOf(was).p50);
  return lost > noticeableS || troubledShare(is) > troubledShare(was) + sameTrouble;
}
