import type { Constants } from "../3-plan/assumptions.js";
import type { PlanSpec } from "../3-plan/plan.js";
import type { Session, WeekSpec } from "../3-plan/week.js";
import { type BodyPart, bodyParts } from "../3-plan/world.js";
import type { Abilities } from "./ability.js";
import { backAt, bothLoads, capacityUnder, type FatigueLoad, loadAfter, loadOf, noLoad } from "./fatigue.js";
import { runDays, spreadOf } from "./spread.js";
import type { Timeline } from "./timeline.js";

/** A plan and how it goes when everybody is fresh. */
export interface FreshRun {
  readonly plan: PlanSpec;
  readonly timeline: Timeline;
}

/** A session with what the week does to it. */
export interface SessionRun {
  readonly session: Session;
  /** What is run: its own plan, or that of the event's first try; null where there is none with a timeline. */
  readonly run: FreshRun | null;
  /** From the first call to the expected end. */
  readonly lastsS: number;
  /** What the event leaves in the body. */
  readonly leaves: FatigueLoad;
  /** What the sessions before have left when it begins. */
  readonly left: FatigueLoad;
  /** How much of each part is back when it begins, the mean of the athletes, 0…1. */
  readonly readiness: readonly (readonly [BodyPart, number])[];
  /** The part that costs it most, whose, and how much of it is back; null where all is fresh. */
  readonly limit: { readonly athlete: string; readonly part: BodyPart; readonly back: number } | null;
}

export interface WeekRun {
  readonly spec: WeekSpec;
  /** In the order of the text. */
  readonly sessions: readonly SessionRun[];
}

/** Of an event that says no cap and has no plan: about what such events last. */
const usualS = 1_200;

/** Works a week out: what each session leaves, and what is left of it when the next ones begin. */
export function runWeek(
  spec: WeekSpec,
  planOf: (session: Session) => FreshRun | null,
  capOf: (event: string) => number | null,
  abilities: Abilities,
  constants: Constants,
): WeekRun {
  const known = spec.sessions.map((session) => {
    const run = planOf(session);
    return {
      session,
      run,
      lastsS: run?.timeline.endS ?? capOf(session.event) ?? usualS,
      leaves: run ? loadOf(run.plan, run.timeline, abilities) : noLoad,
    };
  });
  const sessions = known.map((one): SessionRun => {
    const startS = one.session.start?.atS;
    const left = startS === undefined ? noLoad : leftAt(startS, known, constants);
    return { ...one, left, readiness: readinessUnder(left, constants), limit: one.run && limitOf(one.leaves, left, constants) };
  });
  return { spec, sessions };
}

type Left = Pick<SessionRun, "session" | "lastsS" | "leaves">;

/** What the sessions that are over by an instant have left then. */
export function leftAt(atS: number, sessions: readonly Left[], constants: Constants): FatigueLoad {
  return sessions.reduce((load, { session: { start }, lastsS, leaves }) => {
    const endS = start ? start.atS + lastsS : Number.POSITIVE_INFINITY;
    return endS <= atS ? bothLoads(load, loadAfter(leaves, atS - endS, constants)) : load;
  }, noLoad);
}

function readinessUnder(left: FatigueLoad, constants: Constants): SessionRun["readiness"] {
  return bodyParts.map((part, at) => {
    const backs = [...left.values()].map((units) => backAt(units[at] ?? 0, constants));
    return [part, backs.length === 0 ? 1 : backs.reduce((sum, back) => sum + back, 0) / backs.length] as const;
  });
}

/** The part whose tiredness costs most: of what the event asks of it, weighed by how much is not back. */
export function limitOf(asks: FatigueLoad, left: FatigueLoad, constants: Constants): SessionRun["limit"] {
  let worst: SessionRun["limit"] = null;
  let most = 1e-6;
  for (const [athlete, units] of asks) {
    const all = units.reduce((sum, unit) => sum + unit, 0);
    bodyParts.forEach((part, at) => {
      const back = backAt(left.get(athlete)?.[at] ?? 0, constants);
      const cost = all > 0 ? ((units[at] ?? 0) / all) * (1 - back) : 0;
      if (cost > most) [worst, most] = [{ athlete, part, back }, cost];
    });
  }
  return worst;
}

/** Days behind a score of a week: the same ones fresh and tired. */
const days = 200;

/** The score of the middle day under a load, in s or reps; Infinity where it is not done on that day. */
export function scoreUnder({ plan }: FreshRun, load: FatigueLoad, abilities: Abilities, constants: Constants): number {
  return spreadOf(runDays(plan, abilities, constants, { to: days, tired: capacityUnder(load, plan, abilities, constants) })).p50;
}

/** Of a score, the share that is given away against another, 0 or less where none is. */
export function givenAway(kind: "time" | "reps", tired: number, fresh: number): number {
  if (!Number.isFinite(tired)) return Number.isFinite(fresh) ? 1 : 0;
  // Of nothing nothing can be given away.
  if (fresh <= 0) return 0;
  return kind === "time" ? tired / fresh - 1 : 1 - tired / fresh;
}

/** Training load by session (Foster 1998): how hard it was, 0 to 10, times its minutes; by day, rest days 0. */
export interface TrainingLoad {
  readonly sum: number;
  /** Mean of the days by their standard deviation (of the population); null where all days are alike. */
  readonly monotony: number | null;
  readonly strain: number | null;
}

/** Null where no session is rated. */
export function trainingLoad({ spec: { days: dates }, sessions }: WeekRun): TrainingLoad | null {
  if (!sessions.some(({ session }) => session.effort !== null)) return null;
  const length = Math.max(7, dates.length);
  const byDay = Array.from({ length }, (_, at) =>
    sessions.reduce(
      (sum, { session: { date, effort }, lastsS }) => sum + (date !== null && date === dates[at] ? ((effort ?? 0) * lastsS) / 60 : 0),
      0,
    ),
  );
  return trainingLoadOf(byDay);
}

export function trainingLoadOf(byDay: readonly number[]): TrainingLoad {
  const sum = byDay.reduce((all, load) => all + load, 0);
  const mean = sum / byDay.length;
  const deviation = Math.sqrt(byDay.reduce((all, load) => all + (load - mean) ** 2, 0) / byDay.length);
  const monotony = deviation > 0 ? mean / deviation : null;
  return { sum, monotony, strain: monotony === null ? null : sum * monotony };
}
