import { once } from "../0-base/once.js";
import type { Constants } from "../3-plan/assumptions.js";
import { loadFor, type PlanSpec, repsInPass, turnsOf } from "../3-plan/plan.js";
import type { Abilities } from "../4-timeline/ability.js";
import { Simulator } from "../4-timeline/simulator.js";
import { poorDay } from "../4-timeline/draw.js";
import { Recording } from "../4-timeline/recording.js";
import { gapless } from "../4-timeline/segments.js";
import type { TurnRun } from "../4-timeline/timeline.js";
import { runDays } from "../4-timeline/spread.js";
import { breachesOf } from "../5-findings/limits/kinds.js";
import { type Run, sourcesOf } from "../5-findings/limits/limit.js";
import type { StageState } from "../4-timeline/stage.js";

/** What a plan is worth to the search: lower is better, in s where the score is a time, in reps where it is reps. */
export interface Worth {
  readonly cost: number;
  /** What the cost does not see of reps begun in several lanes: a climb follows it, in the end it counts for nothing. */
  readonly slope: number;
  /** The expected score: s, or reps. */
  readonly score: number;
  /** No rule that the search knows is broken, the work is done, nobody misses even on a poor day. */
  readonly sound: boolean;
  /** Chance to beat the target, where one is set. */
  readonly chance: number | null;
}

/** Of the cost of a thing that must not be, in s or reps: so much that no saving pays for it. */
const heavy = 30;
/** Of a miss on a poor day, in s and in reps: more than it costs by itself, little enough to be climbed over. */
const missInS = 10;
const missInReps = 5;

/** Reps that each rep of a first set over a third of the best must win to be worth it: the trade warns of them. */
const hardOpening = 2;

/** An event for reps is long from here on: what a first set takes is paid back. */
const longS = 180;

/** Days behind a chance during a search, and what the whole of it is worth: more than any score. */
const daysForChance = 60;
const certain = 10_000;

/**
 * Judges a plan: on the expected day by its score and the event's rules, on a poor day by its misses; with a target (s,
 * or reps) by the chance to beat it first.
 */
export function worthOf(plan: PlanSpec, abilities: Abilities, constants: Constants, target: number | null = null): Worth {
  const { event } = plan;
  const simulator = new Simulator(plan, abilities, constants, event.capS);
  const recording = new Recording();
  const { endS, finished, reps, stages } = simulator.run(null, recording);
  const run = runOf(plan, abilities, recording, stages, endS);
  const fault = breachesOf(run, sourcesOf(plan)).reduce((sum, { over }) => sum + over, 0);
  const drops = recording.turns.reduce((sum, run) => sum + run.drops.length, 0);
  simulator.run(poorDay, null);
  const misses = simulator.misses + drops;
  const unfinished = event.score === "time" && !finished ? stages.reduce((sum, { tally: { target, units } }) => sum + Math.max(0, (target ?? 0) - units), 0) + 1 + event.stages.length - stages.length : 0;
  const parts = event.score === "time" ? [] : partsDone(recording.turns, event.capS ?? endS);
  const begun = nearly * parts.reduce((sum, part) => sum + part, 0);
  const scored = event.score === "time" ? endS : -reps - begun / Math.max(1, parts.length);
  const opening = event.score === "reps" && (event.capS ?? 0) >= longS ? hardOpening * hardOpenings(plan, abilities) : 0;
  const sound = fault === 0 && misses === 0 && unfinished === 0;
  const chance = target === null ? null : chanceOf(target, plan, abilities, constants);
  const cost = (chance === null ? 0 : certain * (1 - chance)) + scored + (event.score === "time" ? missInS : missInReps) * misses + heavy * unfinished + opening + (fault > 0 ? heavy * (1 + fault) : 0);
  return { chance, cost, slope: begun * (1 - 1 / Math.max(1, parts.length)), score: event.score === "time" ? endS : reps, sound };
}

/** A simulated plan as limits look at it; what not every limit asks for is made when one does. */
function runOf(plan: PlanSpec, abilities: Abilities, { turns, segments }: Recording, stages: readonly StageState[], endS: number): Run {
  const names = plan.team.athletes.map(({ name }) => name);
  const by = (repsBy: readonly number[]): Record<string, number> => Object.fromEntries(names.map((name, place) => [name, repsBy[place] ?? 0]));
  const whole = once(() => gapless(segments, names, endS));
  return {
    plan, abilities, turns,
    stages: stages.map(({ index, step, repsBy }) => ({ stage: index, name: plan.event.stages[index]?.name ?? "", step, repsBy: by(repsBy) })),
    get segments() { return whole(); },
  };
}

/** What a rep that the cap cuts is worth when it was all but done: less than one that counts, so that the search has a slope. */
const nearly = 0.9;

/** The parts done of the reps that are under way at the cap, lane by lane. */
function partsDone(turns: readonly TurnRun[], capS: number): readonly number[] {
  return turns.filter(({ endS, repEndsS }) => endS >= capS - 1e-6 && repEndsS.length > 0).map(({ startS, repEndsS }) => {
    const lastS = repEndsS.at(-1) ?? startS;
    return Math.min(1, (capS - lastS) / ((lastS - startS) / repEndsS.length));
  });
}

function chanceOf(target: number, plan: PlanSpec, abilities: Abilities, constants: Constants): number {
  const { kind, scores } = runDays(plan, abilities, constants, { to: daysForChance });
  return scores.filter((score) => (kind === "time" ? score < target : score > target)).length / scores.length;
}

/** By how many reps the sets of the first pass are over a third of the best: a rule of thumb of the trade, so no fault. */
function hardOpenings(plan: PlanSpec, abilities: Abilities): number {
  let sum = 0;
  for (const { who, works, rounds } of turnsOf(plan.steps)) {
    if (rounds !== null) continue;
    for (const work of works) {
      who.forEach((name, place) => (sum += over(repsInPass(work, place, 0), abilities.unbroken(name, work.movement, loadFor(plan.team, name, work.load)).reps / 3)));
    }
  }
  return sum;
}

function over(value: number, limit: number): number {
  return Math.max(0, value - limit - 1e-9);
}
