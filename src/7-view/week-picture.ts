import { percent } from "../0-base/quantity.js";
import { addDays, momentOf, wallAt, zoneData } from "../0-base/zoned.js";
import type { Constants } from "../3-plan/assumptions.js";
import { type BodyPart, bodyParts } from "../3-plan/world.js";
import { backAt } from "../4-timeline/fatigue.js";
import { leftAt, type WeekRun } from "../4-timeline/week.js";
import { hourIn } from "./week-answers.js";

/** What is back of a part at an hour, 0…1: the mean of the athletes, and the least with whose it is. */
export interface PartPoint {
  readonly atS: number;
  readonly mean: number;
  readonly least: number;
  readonly who: string;
}

/** A week drawn: days across, parts of the body down. Instants in s since 1970 UTC; plain data. */
export interface WeekPicture {
  readonly name: string;
  readonly fromS: number;
  readonly toS: number;
  readonly days: readonly { readonly date: string; readonly weekday: string; readonly fromS: number; readonly rest: boolean }[];
  readonly parts: readonly { readonly part: BodyPart; readonly points: readonly PartPoint[]; readonly words: string }[];
  /** `offset`: where its line begins, from the start of the week's block. */
  readonly sessions: readonly {
    readonly startS: number;
    readonly endS: number;
    readonly event: string;
    readonly again: boolean;
    readonly offset: number;
    readonly words: string;
  }[];
  readonly due: { readonly atS: number; readonly words: string } | null;
  /** What the hours rest on. */
  readonly zoneWords: string;
}

const everyS = 3 * 3_600;

/** Null for a week without a day. */
export function weekPicture({ spec, sessions }: WeekRun, constants: Constants): WeekPicture | null {
  const [first, last] = [spec.days[0], spec.days.at(-1)];
  const starts = spec.days.flatMap((date) => momentOf(date, "00:00", spec.zone) ?? []);
  const end = last === undefined ? null : momentOf(addDays(last, 1), "00:00", spec.zone);
  const fromS = starts[0]?.atS;
  if (first === undefined || fromS === undefined || !end) return null;
  const placed = sessions.flatMap(({ session, lastsS }) =>
    session.start ? [{ session, startS: session.start.atS, endS: session.start.atS + lastsS }] : [],
  );
  const moments = [
    ...Array.from({ length: Math.ceil((end.atS - fromS) / everyS) + 1 }, (_, at) => Math.min(end.atS, fromS + at * everyS)),
    ...placed.flatMap(({ startS, endS }) => [startS, endS]),
  ].sort((a, b) => a - b);
  const loads = moments.map((atS) => ({ atS, load: leftAt(atS, sessions, constants) }));
  return {
    name: spec.name,
    fromS,
    toS: end.atS,
    days: spec.days.map((date, at) => ({
      date,
      weekday: wallAt((starts[at]?.atS ?? fromS) + 43_200, spec.zone).weekday,
      fromS: starts[at]?.atS ?? fromS,
      rest: !placed.some(({ session }) => session.date === date),
    })),
    parts: bodyParts.flatMap((part, place) => {
      const points = loads.map(({ atS, load }): PartPoint => {
        const backs = [...load]
          .map(([who, units]) => ({ who, back: backAt(units[place] ?? 0, constants) }))
          .sort((a, b) => a.back - b.back);
        const mean = backs.length === 0 ? 1 : backs.reduce((sum, { back }) => sum + back, 0) / backs.length;
        return { atS, mean, least: backs[0]?.back ?? 1, who: backs[0]?.who ?? "" };
      });
      const lowest = points.reduce((low, point) => (point.least < low.least ? point : low), { atS: fromS, mean: 1, least: 1, who: "" });
      return lowest.least > 0.999
        ? []
        : [{ part, points, words: `${part}: least ${percent(lowest.least)} back, ${lowest.who}, ${hourIn(lowest.atS, spec)}` }];
    }),
    sessions: placed.map(({ session, startS, endS }) => ({
      startS,
      endS,
      event: session.event,
      again: session.again,
      offset: session.span.from,
      words: `${hourIn(startS, spec)} ${session.event}${session.again ? ", second try" : ""}`,
    })),
    due: spec.due && { atS: spec.due.atS, words: `due ${hourIn(spec.due.atS, spec)}` },
    zoneWords: zoneWords(spec.zone),
  };
}

function zoneWords(zone: string): string {
  const { holds, lacks } = zoneData();
  const age =
    lacks === null
      ? `release ${holds ?? ""} of the IANA database or a later one`
      : `older than release ${lacks} of the IANA database${holds ? `, ${holds} or later` : ""}`;
  return `Hours are those of ${zone}, by this platform's zone data: ${age}. Where a country has just changed its clocks, look at the published hour too.`;
}
