import { once } from "../0-base/once.js";
import type { Constants } from "../3-plan/assumptions.js";
import { loadFor, type PlanSpec, repsInPass, type Step, turnsOf } from "../3-plan/plan.js";
import type { Abilities } from "../4-timeline/ability.js";
import type { EventSpec } from "../3-plan/event.js";
import { Simulator } from "../4-timeline/simulator.js";
import type { Outcome } from "../4-timeline/stage.js";
import { Draw, poorDay } from "../4-timeline/draw.js";
import type { Condition } from "../4-timeline/condition.js";
import { Recording } from "../4-timeline/recording.js";
import { gapless, overlaps } from "../4-timeline/segments.js";
import type { TurnRun } from "../4-timeline/timeline.js";
import { type Days, gainOf, runDays, unseenDays, usualSeed } from "../4-timeline/spread.js";
import { hardestOpening, isLong } from "../5-findings/rules/opens-hard.js";
import { outOfTurn } from "../5-findings/out-of-turn.js";
import { outOfRound } from "../5-findings/out-of-round.js";
import { atOneThing, atStations } from "../5-findings/crowding.js";
import { breachesOf } from "../5-findings/limits/kinds.js";
import { type Run, sourcesOf } from "../5-findings/limits/limit.js";
import type { StageState } from "../4-timeline/stage.js";

/** What a plan is worth to the search: lower is better, in s where the score is a time, in reps where it is reps. */
export interface Worth {
  readonly cost: number;
  /** What the cost does not see of reps begun in several lanes: a climb follows it, in the end it counts for nothing. */
  readonly slope: number;
  /** The score on paper: s, or reps. */
  readonly score: number;
  /** The score of the middle of the days that were drawn; on paper where none was. */
  readonly middle: number;
  /** The score of each of those days: of two plans on the same days, what one is ahead shows on few of them. */
  readonly scores: Float64Array;
  /** Of those days, on how many somebody misses or drops a hold, 0…1; without days, whether anybody does in poor form. */
  readonly troubled: number;
  /** Told from the first few days alone: it is not good enough to be kept, and a climb may still go over it. */
  readonly rough: boolean;
  /** No rule that the search knows is broken, the work is done, and trouble is as seldom as was wished. */
  readonly sound: boolean;
  /** Chance to beat the target, where one is set. */
  readonly chance: number | null;
}

/** What plans are judged by. */
export interface Standard {
  /** Days that are drawn, the same for every plan; 0: the day on paper, without a miss even in poor form. */
  readonly days: number;
  /** On how many of them a miss or a drop is borne, 0…1. */
  readonly risk: number;
  /** Look for the best chance to beat this score (s, or reps) instead of the best score. */
  readonly target: number | null;
  /** First sets over a third of a best, of which the trade warns, are charged far beyond what they can win. */
  readonly gentle?: boolean;
  /** Where a plan takes over from another: how everybody stands then, and who has done how much of its first stage. */
  readonly start?: { readonly condition: Condition; readonly repsBy: readonly number[] };
}

/** Of the cost of a thing that must not be, in s or reps: so much that no saving pays for it. */
const heavy = 30;
/**
 * Of a plan that breaks a rule, that part of the score where it is more: worse than one in which somebody always misses, and
 * that is never done in time.
 */
const brokenOfScore = 1;
/** Of a miss or a drop on a day, in s and in reps: more than it costs by itself, little enough to be climbed over. */
const missInS = 10;
const missInReps = 5;
/** Of that, where drawn days have its cost in their scores already. */
const onDrawnDays = 0.3;
/** Of trouble on all days, beyond the risk that is borne; or that part of the score, where it is more. */
const riskInS = 60;
const riskInReps = 20;
const riskOfScore = 0.3;
/** A day that the cap cuts short, in days of trouble: a team would rather miss now and then, and be done. */
const lateness = 2;

/**
 * What first sets over a third of a best must win in a long event to be worth the trade's warning: a part of the score, and
 * of a rep for each rep over it; a gentle plan has none of them.
 */
const hardOpeningOfScore = 0.006;
const hardOpening = { usual: 0.05, gentle: 2 } as const;

/** What leaving somebody out of all work and every hold must win to be worth it, as a part of the score: who came wants to move. */
const idleOfScore = 0.005;

/** Of days: a plan that is not done inside the cap more often than this is not called sound. */
export const mostLate = 0.2;

/** Days behind a chance that is told. */
const daysTold = 600;
/** Days behind a chance during a search, and what the whole of it is worth: more than any score. */
const daysForChance = 60;
const certain = 10_000;

/** What ends a look at a plan early. */
export interface Bar {
  /** A plan that is all but sure to cost more is worth nothing. */
  readonly most?: number;
  /** One that costs more than this, and surely enough so, is told roughly. */
  readonly enough?: number;
  /** What a plan like it is worth on the same days. */
  readonly like?: Worth | null;
}

/**
 * Judges a plan: by the rules on paper, by its score and its misses on drawn days; with a target by the chance to beat it
 * first. Null as soon as it is all but sure to cost more than the bar.
 */
export function worthOf(
  plan: PlanSpec,
  abilities: Abilities,
  constants: Constants,
  { days, risk, target, start, gentle = false }: Standard,
  { most = Number.POSITIVE_INFINITY, enough = Number.POSITIVE_INFINITY, like = null }: Bar = {},
): Worth | null {
  const { event } = plan;
  const byTime = event.score === "time";
  // A plan for time is run to its end, also past the cap: how late it is tells two of them apart.
  const open = byTime && event.stages.every(({ target }) => target !== null);
  const simulator = new Simulator(plan, abilities, constants, open ? null : event.capS);
  const recording = new Recording();
  const from = start?.condition ?? null;
  const lastS = open ? hopeless * capOf(event) : Number.POSITIVE_INFINITY;
  // One that takes longer than the bar costs more: how much longer, nobody asks.
  const mostS = byTime && target === null ? most : Number.POSITIVE_INFINITY;
  const outcome = simulator.run(null, recording, from, Math.min(lastS, mostS));
  const { endS, reps, stages } = outcome;
  if (endS >= mostS) return null;
  const run = runOf(plan, abilities, recording, stages, endS, start?.repsBy ?? []);
  const fault = faultIn(run);
  const { drops } = simulator;
  const onPaper = simulator.misses + drops;
  const unfinished = byTime ? missingIn(outcome, event) : cutShortIn(outcome, event);
  const parts = byTime ? [] : partsDone(recording.turns, event.capS ?? endS);
  const begun = nearly * parts.reduce((sum, part) => sum + part, 0);
  const score = byTime ? endS : reps;
  const hard = isLong(event) ? hardOpenings(plan, abilities) : 0;
  const opening = hard > 0 ? hardOpeningOfScore * score + (gentle ? hardOpening.gentle : hardOpening.usual) * hard : 0;
  const idle = idleOfScore * score * idleIn(plan);
  const must = heavy * unfinished + opening + idle + (fault > 0 ? Math.max(heavy, brokenOfScore * score) + heavy * fault : 0);
  const missCost = (byTime ? missInS : missInReps) * (days > 0 ? onDrawnDays : 1);
  const lag = like ? gainOf(event.score, like.score, like.middle) : 0;
  const atLeast = must + (byTime ? score : -score - 1) + (lag > 0 ? lag / 2 : 0);
  if (target === null && atLeast + missCost * onPaper > most) return null;
  const tried =
    days > 0
      ? onDays(simulator, plan, { from, lastS, days }, target === null ? { most: most - must, enough: enough - must, like } : null)
      : inPoorForm(simulator, from, { score, drops, late: open && endS > capOf(event) });
  if (!tried) return null;
  const { middle, scores, troubled, late, misses, rough } = tried;
  const chance = target === null ? null : chanceOf(target, plan, abilities, constants);
  const scored = byTime ? middle : -middle - begun / Math.max(1, parts.length);
  const excess = days > 0 ? Math.max(0, troubled - (rough ? Math.max(risk, roughRisk) : risk)) : 0;
  const cost =
    (chance === null ? 0 : certain * (1 - chance)) +
    scored +
    missCost * misses +
    Math.max(byTime ? riskInS : riskInReps, riskOfScore * score) * (excess + (rough ? 0 : lateness * Math.max(0, late - mostLate))) +
    must;
  const inTime = unfinished === 0 && (!byTime || endS <= capOf(event));
  const sound = fault === 0 && inTime && troubled <= risk && late <= mostLate;
  return { chance, cost, slope: begun * (1 - 1 / Math.max(1, parts.length)), score, middle, scores, troubled, rough, sound };
}

/** By how much a plan breaks what it must keep; 0 where it breaks nothing. */
function faultIn(run: Run): number {
  const { plan, turns } = run;
  return (
    breachesOf(run, sourcesOf(plan)).reduce((sum, { over }) => sum + over, 0) +
    outOfTurn(plan, turns).length +
    outOfRound(plan, turns).length +
    (crossesLanes(plan) ? overlaps(run.segments).length : 0) +
    crowds(run)
  );
}

/** How many of the team neither work nor hold. */
function idleIn({ team, steps }: PlanSpec): number {
  const busy = new Set(turnsOf(steps).flatMap(({ who, holders }) => [...who, ...holders]));
  return team.athletes.filter(({ name }) => !busy.has(name)).length;
}

/** Whether somebody is in two lanes that run side by side: only then may one be wanted in two places at once. */
function crossesLanes({ steps }: PlanSpec): boolean {
  const within = (all: readonly Step[]): readonly Step[] =>
    all.flatMap((step) => (step.kind === "stage" || step.kind === "window" ? within(step.body) : [step]));
  return within(steps).some((block) => {
    const lanes = block.kind === "lanes" ? block.lanes : [];
    const crews = lanes.map(({ body }) => new Set(turnsOf(body).flatMap(({ who, holders }) => [...who, ...holders])));
    return crews.some((crew, at) => crews.slice(at + 1).some((other) => [...crew].some((name) => other.has(name))));
  });
}

interface Tried {
  readonly scores: Float64Array;
  readonly middle: number;
  readonly troubled: number;
  /** On how many of them the work is not done inside the cap, 0…1. */
  readonly late: number;
  /** Misses and drops a day. */
  readonly misses: number;
  readonly rough: boolean;
}

/** In caps: a plan for time is run so long, and no longer. */
const hopeless = 3;
/** Each rep that a day leaves undone, in s. */
const undoneInS = 3;

/** After so many days, a plan that is behind by more than that part of the score is not looked at any longer. */
const looks: ReadonlyMap<number, number> = new Map([
  [3, 0.02],
  [6, 0.012],
  [12, 0.006],
  [24, 0.004],
  [48, 0.002],
  [96, 0.001],
]);

/** Days of a rough look, how far behind a plan must be for it, as a part of the score, and the trouble that is borne on so few. */
const roughDays = 3;
const roughly = 0.006;
const roughRisk = 0.5;

/**
 * The middle is the mean of the days from the first quarter to the third: whole reps have no finer slope. Null where the
 * first days are hopeless.
 */
function onDays(
  simulator: Simulator,
  { event }: PlanSpec,
  { from, lastS, days }: { readonly from: Condition | null; readonly lastS: number; readonly days: number },
  bar: Required<Bar> | null,
): Tried | null {
  const draw = new Draw(usualSeed);
  const scores = new Float64Array(days);
  const paired = bar?.like?.scores.length === days ? bar.like : null;
  let [troubled, late, misses, ahead] = [0, 0, 0, 0];
  for (let day = 0; day < days; day += 1) {
    draw.go(day);
    const outcome = simulator.run(draw, null, from, lastS);
    scores[day] = event.score === "reps" ? outcome.reps : outcome.endS + undoneInS * missingIn(outcome, event);
    if (simulator.missed.size + simulator.dropped.size > 0) troubled += 1;
    if (event.score === "time" && (!outcome.finished || outcome.endS > capOf(event))) late += 1;
    misses += simulator.misses + simulator.dropped.size;
    ahead += (scores[day] ?? 0) - (paired?.scores[day] ?? 0);
    const bearable = looks.get(day + 1);
    if (!bar || bearable === undefined || day + 1 >= days) continue;
    const middle = (paired?.middle ?? 0) + ahead / (day + 1);
    const costs = event.score === "reps" ? -middle : middle;
    if (costs > bar.most + bearable * middle) return null;
    if (day + 1 === roughDays && paired && costs > bar.enough + roughly * middle)
      return {
        scores: scores.subarray(0, roughDays),
        middle,
        troubled: troubled / roughDays,
        late: late / roughDays,
        misses: misses / roughDays,
        rough: true,
      };
  }
  const inner = scores.toSorted().subarray(Math.floor(days / 4), Math.ceil((3 * days) / 4));
  return {
    scores,
    middle: inner.reduce((sum, score) => sum + score, 0) / inner.length,
    troubled: troubled / days,
    late: late / days,
    misses: misses / days,
    rough: false,
  };
}

function inPoorForm(
  simulator: Simulator,
  from: Condition | null,
  { score, drops, late }: { readonly score: number; readonly drops: number; readonly late: boolean },
): Tried {
  simulator.run(poorDay, null, from);
  const misses = simulator.misses + drops;
  return { scores: new Float64Array(), middle: score, troubled: Number(misses > 0), late: Number(late), misses, rough: false };
}

/** When an event is over, in s; Infinity where nothing but its work ends it. */
function capOf({ capS }: EventSpec): number {
  return capS ?? Number.POSITIVE_INFINITY;
}

/** Units that stages lack of their targets, and one for each stage that was not reached. */
function missingIn({ finished, stages }: Outcome, event: EventSpec): number {
  if (finished) return 0;
  return lackIn(stages) + 1 + event.stages.length - stages.length;
}

/** Units that stages with a time of their own lack of their targets. */
function cutShortIn({ stages }: Outcome, event: EventSpec): number {
  return lackIn(stages.filter(({ index }) => (event.stages[index]?.withinS ?? null) !== null));
}

function lackIn(stages: readonly StageState[]): number {
  return stages.reduce((sum, { tally: { target, units } }) => sum + Math.max(0, (target ?? 0) - units), 0);
}

/** Lines in which more meet at one thing, or at stations, than there is place for. */
function crowds({ plan, segments }: Run): number {
  const { equipment, stations } = plan.event;
  return (equipment.length > 0 ? atOneThing(plan, segments).length : 0) + (stations.length > 0 ? atStations(plan, segments).length : 0);
}

/** A simulated plan as limits look at it; what not every limit asks for is made when one does. */
function runOf(
  plan: PlanSpec,
  abilities: Abilities,
  { turns, segments }: Recording,
  stages: readonly StageState[],
  endS: number,
  before: readonly number[],
): Run {
  const names = plan.team.athletes.map(({ name }) => name);
  const by = (repsBy: readonly number[]): Record<string, number> =>
    Object.fromEntries(names.map((name, place) => [name, repsBy[place] ?? 0]));
  const whole = once(() => gapless(segments, names, endS));
  return {
    plan,
    abilities,
    turns,
    stages: stages.map(({ index, step, repsBy }) => ({
      stage: index,
      name: plan.event.stages[index]?.name ?? "",
      step,
      repsBy: by(index === 0 ? repsBy.map((reps, place) => reps + (before[place] ?? 0)) : repsBy),
    })),
    get segments() {
      return whole();
    },
  };
}

/** What a rep that the cap cuts is worth when it was all but done: less than one that counts, so that the search has a slope. */
const nearly = 0.9;

/** The parts done of the reps that are under way at the cap, lane by lane. */
function partsDone(turns: readonly TurnRun[], capS: number): readonly number[] {
  return turns
    .filter(({ endS, repEndsS }) => endS >= capS - 1e-6 && repEndsS.length > 0)
    .map(({ startS, repEndsS }) => {
      const lastS = repEndsS.at(-1) ?? startS;
      return Math.min(1, (capS - lastS) / ((lastS - startS) / repEndsS.length));
    });
}

function chanceOf(target: number, plan: PlanSpec, abilities: Abilities, constants: Constants): number {
  return shareBeating(target, runDays(plan, abilities, constants, { to: daysForChance }));
}

/** The chance to beat a target, on days that the search has not seen: what it chose on its own days flatters there. */
export function chanceToldOf(target: number, plan: PlanSpec, abilities: Abilities, constants: Constants): number {
  return shareBeating(target, runDays(plan, abilities, constants, unseenDays(daysTold)));
}

function shareBeating(target: number, { kind, scores }: Days): number {
  return scores.filter((score) => (kind === "time" ? score < target : score > target)).length / scores.length;
}

/** By how many reps the sets of the first pass are over a third of the best: a rule of thumb of the trade, so no fault. */
function hardOpenings(plan: PlanSpec, abilities: Abilities): number {
  let sum = 0;
  for (const { who, works, rounds } of turnsOf(plan.steps)) {
    if (rounds !== null) continue;
    for (const work of works) {
      who.forEach(
        (name, place) =>
          (sum += over(
            repsInPass(work, place, 0),
            abilities.unbroken(name, work.movement, loadFor(plan.team, name, work.load)).reps * hardestOpening,
          )),
      );
    }
  }
  return sum;
}

function over(value: number, limit: number): number {
  return Math.max(0, value - limit - 1e-9);
}
