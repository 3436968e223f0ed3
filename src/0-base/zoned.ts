/** Local days and times in a named zone, by Temporal and the zone data of the platform. */
import { Temporal } from "temporal-polyfill";

/** A local time as an instant, in s since 1970 UTC; `fold`: whether clocks show it once, twice, or skip it. */
export interface Moment {
  readonly atS: number;
  readonly fold: "once" | "twice" | "skipped";
}

/** What an instant is called in a zone. */
export interface WallTime {
  readonly date: string;
  readonly time: string;
  readonly weekday: string;
}

const hour = 3_600_000;
const weekdays = ["Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun"];

/**
 * `2026-03-20`, `18:00`, `America/Halifax`; null for a day, an hour or a zone that is none. A local time that comes twice
 * is the first, one that is skipped counts by the offset before the gap (RFC 5545, 3.3.5; Temporal calls it compatible).
 */
export function momentOf(date: string, time: string, zone: string): Moment | null {
  return orNull(() => {
    const local = Temporal.PlainDateTime.from(`${date}T${time.padStart(5, "0")}`, { overflow: "reject" });
    const [early, late] = (["earlier", "later"] as const).map(
      (disambiguation) => local.toZonedDateTime(zone, { disambiguation }).epochMilliseconds,
    );
    const at = local.toZonedDateTime(zone);
    const fold = early === late ? "once" : at.toPlainDateTime().equals(local) ? "twice" : "skipped";
    return { atS: at.epochMilliseconds / 1000, fold };
  });
}

/** `2026-03-20T18:00:00-03:00`; null where there is no such moment. */
export function isoAt(date: string, time: string, zone: string): string | null {
  const moment = momentOf(date, time, zone);
  return (
    moment &&
    Temporal.Instant.fromEpochMilliseconds(moment.atS * 1000)
      .toZonedDateTimeISO(zone)
      .toString({ timeZoneName: "never" })
  );
}

/** The day and the hour that clocks of a zone show at an instant. */
export function wallAt(atS: number, zone: string): WallTime {
  const zoned = Temporal.Instant.fromEpochMilliseconds(Math.round(atS) * 1000).toZonedDateTimeISO(zone);
  return {
    date: zoned.toPlainDate().toString(),
    time: zoned.toPlainTime().toString({ smallestUnit: "minute" }),
    weekday: weekdays[zoned.dayOfWeek - 1] ?? "",
  };
}

/** Whether there is such a day. */
export function isDate(date: string): boolean {
  return orNull(() => Temporal.PlainDate.from(date, { overflow: "reject" })) !== null;
}

export function addDays(date: string, days: number): string {
  return Temporal.PlainDate.from(date).add({ days }).toString();
}

export function daysBetween(from: string, to: string): number {
  return Temporal.PlainDate.from(from).until(Temporal.PlainDate.from(to), { largestUnit: "day" }).days;
}

/** Whether the platform knows a time zone by that name. */
export function isZone(zone: string): boolean {
  return orNull(() => Temporal.Instant.fromEpochMilliseconds(0).toZonedDateTimeISO(zone)) !== null;
}

/**
 * Changes of law by which the age of a platform's zone data shows, newest first: the release of the IANA database that
 * brought each, and the offset in h that it gives at an instant. The first two from the database's own news, the others
 * from memory.
 */
const marks: readonly { readonly release: string; readonly zone: string; readonly at: string; readonly hours: number }[] = [
  { release: "2026c", zone: "America/Edmonton", at: "2026-12-07T17:00Z", hours: -6 },
  { release: "2026b", zone: "America/Vancouver", at: "2026-12-07T17:00Z", hours: -7 },
  { release: "2025b", zone: "America/Coyhaique", at: "2025-07-01T00:00Z", hours: -3 },
  { release: "2024a", zone: "Asia/Almaty", at: "2024-07-01T00:00Z", hours: 5 },
];

/** The newest release of the zone database that the platform's data are known to hold, and the next that they lack; null: none. */
export function zoneData(): { readonly holds: string | null; readonly lacks: string | null } {
  const at = marks.findIndex(
    ({ zone, at: instant, hours }) =>
      orNull(() => Temporal.Instant.from(instant).toZonedDateTimeISO(zone).offsetNanoseconds / 1e6) === hours * hour,
  );
  return { holds: marks[at]?.release ?? null, lacks: (at < 0 ? marks.at(-1) : marks[at - 1])?.release ?? null };
}

/** Temporal throws on what is no date or zone. */
function orNull<T>(make: () => T): T | null {
  try {
    return make();
  } catch {
    return null;
  }
}
