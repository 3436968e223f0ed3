import type { Fix } from "../0-base/problem.js";
import { daysBetween, momentOf, wallAt } from "../0-base/zoned.js";
import { type PlanSpec, turnsOf } from "../3-plan/plan.js";
import type { Session, WeekSpec } from "../3-plan/week.js";
import type { SessionRun, WeekRun } from "../4-timeline/week.js";

/** What stands against a session at some hour: measured here alone, for findings and for orders that are suggested. */
export type Fault =
  | { readonly kind: "away"; readonly athlete: string }
  | { readonly kind: "closed" }
  | { readonly kind: "late"; readonly endS: number; readonly byS: number }
  | { readonly kind: "crowded"; readonly date: string; readonly events: number }
  | { readonly kind: "close"; readonly gapS: number }
  | { readonly kind: "out of turn" };

/** A session that stands on its hour. */
export interface Placed {
  readonly session: Pick<Session, "at" | "event" | "again">;
  /** The day it begins on, in the week's zone. */
  readonly date: string;
  readonly startS: number;
  readonly endS: number;
}

export function placedIn({ sessions }: WeekRun): readonly Placed[] {
  return sessions.flatMap(({ session, lastsS }) =>
    session.start && session.date !== null
      ? [{ session, date: session.date, startS: session.start.atS, endS: session.start.atS + lastsS }]
      : [],
  );
}

/** All that stands against a session at an hour, with the others where they are. */
export function faultsAt(week: WeekRun, { session, run, lastsS }: SessionRun, startS: number, others: readonly Placed[]): readonly Fault[] {
  const { spec } = week;
  const endS = startS + lastsS;
  const faults: Fault[] = [];
  for (const when of spec.away)
    if (when.fromS < endS && startS < when.toS && (run === null || takesPart(when.athlete, run.plan)))
      faults.push({ kind: "away", athlete: when.athlete });
  if (spec.open !== null && !spec.open.some(({ fromS, toS }) => fromS <= startS && endS <= toS)) faults.push({ kind: "closed" });
  if (spec.due && endS > spec.due.atS - spec.keepS) faults.push({ kind: "late", endS, byS: spec.due.atS - spec.keepS });
  return [...faults, ...faultsAmong(spec, { session, date: wallAt(startS, spec.zone).date, startS, endS }, others)];
}

function takesPart(athlete: string, { steps }: PlanSpec): boolean {
  return turnsOf(steps).some(({ who, holders }) => who.includes(athlete) || holders.includes(athlete));
}

/** What others of some sessions are to one of them: too many that day, too close before it, a first try that comes later. */
export function faultsAmong(
  { mostADay, gapS: least }: Pick<WeekSpec, "mostADay" | "gapS">,
  { session, date, startS }: Placed,
  others: readonly Placed[],
): readonly Fault[] {
  let [events, gapS, late] = [1, Number.POSITIVE_INFINITY, false];
  for (const other of others) {
    if (other.session.at === session.at) continue;
    if (other.startS < startS || (other.startS === startS && other.session.at < session.at)) {
      gapS = Math.min(gapS, startS - other.endS);
      if (other.date === date) events += 1;
    }
    if (session.again && !other.session.again && other.session.event === session.event && other.startS >= startS) late = true;
  }
  const faults: Fault[] = [];
  if (events > mostADay) faults.push({ kind: "crowded", date, events });
  if (gapS < least) faults.push({ kind: "close", gapS });
  if (late) faults.push({ kind: "out of turn" });
  return faults;
}

/** The hours at which a session may be tried: its own; without one, those that the week names, and those at which the floor opens. */
function hoursFor({ spec }: WeekRun, session: Session): readonly string[] {
  if (session.time !== null) return [session.time];
  const named = spec.sessions.flatMap(({ time }) => time ?? []);
  const opening = (spec.open ?? []).map(({ fromS }) => wallAt(fromS, spec.zone).time).filter((time) => time !== "00:00");
  const hours = [...new Set([...named, ...opening])];
  return hours.length > 0 ? hours : ["18:00"];
}

/** Every hour of the week's days at which nothing but the other sessions could stand against a session. */
export function hoursLeft(
  week: WeekRun,
  run: SessionRun,
): readonly { readonly date: string; readonly time: string; readonly startS: number }[] {
  const { spec } = week;
  return spec.days.flatMap((date) =>
    hoursFor(week, run.session).flatMap((time) => {
      const moment = momentOf(date, time, spec.zone);
      return moment && faultsAt(week, run, moment.atS, []).length === 0 ? [{ date, time, startS: moment.atS }] : [];
    }),
  );
}

/**
 * Moves a session to the nearest day on which nothing stands against it and that also suits, rest days last; none where
 * there is no such day.
 */
export function moved(
  week: WeekRun,
  run: SessionRun,
  text: string,
  suits: (date: string, startS: number) => boolean = () => true,
): readonly Fix[] {
  const { spec } = week;
  const others = placedIn(week).filter(({ session }) => session.at !== run.session.at);
  const home = run.session.date ?? spec.days[0] ?? "";
  const away = (date: string): number =>
    Math.abs(daysBetween(home, date)) + (spec.rests.some((rest) => rest.date === date) ? spec.days.length : 0);
  const best = hoursLeft(week, run)
    .filter(({ date }) => date !== run.session.date)
    .sort((a, b) => away(a.date) - away(b.date) || a.startS - b.startS)
    .find(({ date, startS }) => {
      const there: Placed = { session: run.session, date, startS, endS: startS + run.lastsS };
      return suits(date, startS) && faultsAmong(spec, there, others).length === 0 && followersAllow(spec, there, others);
    });
  return best
    ? [
        {
          title: `move it to ${wallAt(best.startS, spec.zone).weekday} ${best.date} ${best.time}`,
          edits: [{ span: whenSpan(run.session, text), text: `${best.date} ${best.time} ` }],
        },
      ]
    : [];
}

/** Whether a move leaves the later sessions of that day, and a second try, without a new fault. */
function followersAllow(spec: WeekSpec, there: Placed, others: readonly Placed[]): boolean {
  const then = [...others, there];
  return others.every((other) => faultsAmong(spec, other, then).length <= faultsAmong(spec, other, others).length);
}

/** Where a session's line says day and hour: nothing, where it says neither. */
export function whenSpan({ span }: Session, text: string): { readonly from: number; readonly to: number } {
  const said = /^(\d{4}-\d\d-\d\d[ \t]*)?(\d{1,2}:\d\d[ \t]*)?/.exec(text.slice(span.from, span.to))?.[0] ?? "";
  return { from: span.from, to: span.from + said.length };
}
