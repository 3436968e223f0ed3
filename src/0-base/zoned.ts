/** Local days and times in a named zone, by the zone data of the platform. */

const day = 86_400_000;
const minute = 60_000;

/** Offset from UTC in ms at an instant; NaN for a zone that the platform does not know. */
function offsetAt(instant: number, zone: string): number {
  try {
    const name = new Intl.DateTimeFormat("en", { timeZone: zone, timeZoneName: "longOffset" }).formatToParts(instant).find(({ type }) => type === "timeZoneName")?.value ?? "";
    const [, sign, hours, minutes] = /^GMT(?:([+-])(\d\d):(\d\d))?/.exec(name) ?? [];
    return (sign === "-" ? -1 : 1) * (Number(hours ?? 0) * 60 + Number(minutes ?? 0)) * minute;
  } catch {
    return Number.NaN;
  }
}

/**
 * `2026-03-20`, `18:00`, `America/Halifax` → `2026-03-20T18:00:00-03:00`; null for a day or zone that is none. A local
 * time that comes twice is the first, one that is skipped counts by the offset before the gap (RFC 5545, 3.3.5).
 */
export function isoAt(date: string, time: string, zone: string): string | null {
  const asUtc = Date.parse(`${date}T${time.padStart(5, "0")}:00Z`);
  const [before, after] = [offsetAt(asUtc - day, zone), offsetAt(asUtc + day, zone)];
  if (Number.isNaN(asUtc) || !/^([01]?\d|2[0-3]):[0-5]\d$/.test(time) || Number.isNaN(before) || new Date(asUtc).toISOString().slice(0, 10) !== date) return null;
  const offset = [before, after].find((candidate) => offsetAt(asUtc - candidate, zone) === candidate) ?? before;
  const minutes = Math.abs(offset) / minute;
  const shown = `${offset < 0 ? "-" : "+"}${String(Math.floor(minutes / 60)).padStart(2, "0")}:${String(minutes % 60).padStart(2, "0")}`;
  return `${new Date(asUtc).toISOString().slice(0, 19)}${shown}`;
}

/** Whether the platform knows a time zone by that name. */
export function isZone(zone: string): boolean {
  return !Number.isNaN(offsetAt(0, zone));
}
