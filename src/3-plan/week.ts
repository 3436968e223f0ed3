import { addDays, daysBetween, isDate, isZone, momentOf, type Moment } from "../0-base/zoned.js";
import type { Span } from "../0-base/span.js";
import type { DayLine, WeekLine } from "./ast.js";
import type { Hours } from "./parts.js";
import { inBase } from "./values.js";

/** A try of an event in a week, on its day and hour or still to be placed. Instants in s since 1970 UTC. */
export interface Session {
  /** Its place among the week's sessions, in the order of the text. */
  readonly at: number;
  readonly span: Span;
  readonly event: string;
  readonly plan: string | null;
  readonly again: boolean;
  readonly date: string | null;
  readonly time: string | null;
  readonly start: Moment | null;
  readonly effort: number | null;
  readonly weight: number;
}

/** A stretch of time, in s since 1970 UTC, and the line that says it. */
export interface Stretch {
  readonly fromS: number;
  readonly toS: number;
  readonly span: Span;
}

/** A week with its limits and its calendar worked out. What cannot be read as a day or an hour is left out; findings tell. */
export interface WeekSpec {
  readonly name: string;
  /** UTC where the week names none that is known: `zoned` is false then. */
  readonly zone: string;
  readonly zoned: boolean;
  readonly due: { readonly atS: number; readonly fold: Moment["fold"]; readonly zone: string; readonly span: Span } | null;
  /** Events a day; Infinity where nothing is said. */
  readonly mostADay: number;
  /** From the end of one event to the start of the next. */
  readonly gapS: number;
  /** From the end of the last event to the due time. */
  readonly keepS: number;
  /** When the floor can be had; null: always. */
  readonly open: readonly Stretch[] | null;
  readonly away: readonly (Stretch & { readonly athlete: string })[];
  readonly rests: readonly { readonly date: string; readonly span: Span }[];
  readonly sessions: readonly Session[];
  /** Every day from the first that is named to the last, or to the due day. */
  readonly days: readonly string[];
}

/** A week longer than this is a slip in a year or a month. */
const mostDays = 60;

export function readWeek(line: WeekLine): WeekSpec {
  const { body } = line;
  const named = body.find((one) => one.kind === "zone")?.zone;
  const zone = named !== undefined && isZone(named) ? named : "UTC";
  const due = dueOf(line, zone);
  const days = daysOf(line, due && body.find((one) => one.kind === "due")?.date);
  const seconds = (kind: "gap" | "keep"): number =>
    Math.max(
      0,
      ...body.map((one) => {
        if (one.kind !== kind) return 0;
        return inBase(one.kind === "gap" ? one.least : one.value, ["time"], () => undefined) ?? 0;
      }),
    );
  const sessions = body.filter((one): one is DayLine => one.kind === "day" && one.event !== null);
  const opens = body.flatMap((one) => (one.kind === "open" ? [one] : []));
  return {
    name: line.name.text,
    zone,
    zoned: named !== undefined && isZone(named),
    due,
    mostADay: Math.min(...body.flatMap((one) => (one.kind === "day limit" ? [one.most] : []))),
    gapS: seconds("gap"),
    keepS: seconds("keep"),
    open:
      opens.length === 0
        ? null
        : opens.flatMap(({ date, hours, span }) =>
            (date === null ? days : [date]).flatMap((day) => stretchOf(day, day, hours, zone, span)),
          ),
    away: body.flatMap((one) =>
      one.kind === "away"
        ? one.who.flatMap(({ text }) =>
            stretchOf(one.date, one.until ?? one.date, one.hours, zone, one.span).map((stretch) => ({ ...stretch, athlete: text })),
          )
        : [],
    ),
    rests: body.flatMap((one) =>
      one.kind === "day" && one.rest && one.date !== null && isDate(one.date) ? [{ date: one.date, span: one.span }] : [],
    ),
    sessions: sessions.map((one, at): Session => ({
      at,
      span: one.span,
      event: one.event?.text ?? "",
      plan: one.plan?.text ?? null,
      again: one.again,
      date: one.date,
      time: one.time,
      start: one.date !== null && one.time !== null ? momentOf(one.date, one.time, zone) : null,
      effort: one.effort,
      weight: one.weight ?? 1,
    })),
    days,
  };
}

function dueOf({ body }: WeekLine, zone: string): WeekSpec["due"] {
  const line = body.find((one) => one.kind === "due");
  if (!line) return null;
  const own = line.zone !== null && isZone(line.zone) ? line.zone : zone;
  const moment = momentOf(line.date, line.time, own);
  return moment && { ...moment, zone: own, span: line.span };
}

function daysOf({ body }: WeekLine, due: string | null | undefined): readonly string[] {
  const dates = body
    .flatMap((one) => ((one.kind === "day" || one.kind === "open") && one.date !== null && isDate(one.date) ? [one.date] : []))
    .concat(due ?? [])
    .sort();
  const [first, last] = [dates[0], dates.at(-1)];
  if (first === undefined || last === undefined) return [];
  return Array.from({ length: Math.min(mostDays, daysBetween(first, last) + 1) }, (_, at) => addDays(first, at));
}

/** From the first day's hour, or its start, to the last day's hour, or its end. */
function stretchOf(first: string, last: string, hours: Hours | null, zone: string, span: Span): readonly Stretch[] {
  const from = momentOf(first, hours?.from ?? "00:00", zone);
  const to = hours ? momentOf(last, hours.to, zone) : isDate(last) ? momentOf(addDays(last, 1), "00:00", zone) : null;
  return from && to && to.atS > from.atS ? [{ fromS: from.atS, toS: to.atS, span }] : [];
}
