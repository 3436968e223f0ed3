import ical, { ICalAlarmType, ICalCalendarMethod } from "ical-generator";
import { wallAt } from "../0-base/zoned.js";
import type { Answer } from "./answer.js";
import { weekCaution } from "./cautions.js";
import type { WeekRun } from "../4-timeline/week.js";

/** When a calendar was made, in s since 1970 UTC: later files move what earlier ones brought. */
export interface Stamp {
  readonly atS: number;
}

const minute = 60;
const hour = 3_600;
const warmUpS = 45 * minute;
/** Sequence numbers count minutes from here, so that a later file's are higher. */
const sequenceFromS = Date.UTC(2026, 0, 1) / 1000;

/**
 * A week as an iCalendar file (RFC 5545): events with plan and score, rest days, a warm-up before each event, and the due
 * time with alarms a day and two hours before. Instants are in UTC, so that no reader's zone data can move them. Each
 * entry's UID hangs on the week, the event and which try it is: a second file moves what moved.
 */
export function weekCalendar(
  { spec, sessions }: WeekRun,
  answers: readonly Answer[],
  lineOf: (offset: number) => number,
  { atS }: Stamp,
): string {
  const calendar = ical({
    name: spec.name,
    prodId: { company: "Rotaline", product: "Rotaline", language: "EN" },
    method: ICalCalendarMethod.PUBLISH,
  });
  const stamp = dated(atS);
  const sequence = Math.max(0, Math.floor((atS - sequenceFromS) / minute));
  const add = (
    id: string,
    summary: string,
    description: string,
    when: { readonly startS: number; readonly endS: number } | { readonly date: string },
  ): ReturnType<typeof calendar.createEvent> => {
    const span =
      "date" in when ? { start: new Date(`${when.date}T00:00:00Z`), allDay: true } : { start: dated(when.startS), end: dated(when.endS) };
    return calendar.createEvent({ id: `${slug(spec.name)}-${id}@rotaline.invalid`, stamp, sequence, summary, description, ...span });
  };
  const tries = new Map<string, number>();
  for (const { session, run, lastsS } of sessions) {
    const nth = (tries.get(session.event) ?? 0) + 1;
    tries.set(session.event, nth);
    if (!session.start) continue;
    const startS = session.start.atS;
    const shown = answers.find(({ line }) => line === lineOf(session.span.from))?.shown ?? "";
    const event = add(
      `${slug(session.event)}-${nth}`,
      `${session.event}${session.again ? ", second try" : ""}`,
      [run ? `Plan ${run.plan.name}` : "No plan yet", shown, "", weekCaution].join("\n"),
      { startS, endS: startS + Math.max(lastsS, minute) },
    );
    event.createAlarm({ type: ICalAlarmType.display, triggerBefore: warmUpS, description: `Warm up for ${session.event}` });
  }
  for (const { date } of spec.rests) add(`rest-${date}`, "Rest day", `Rest day of ${spec.name}`, { date });
  if (spec.due) {
    const { atS: dueS, zone } = spec.due;
    const there = wallAt(dueS, zone);
    const due = add(
      "due",
      `Scores due: ${spec.name}`,
      `Due ${there.weekday} ${there.date} ${there.time} in ${zone}. Write the scores down and send them before.`,
      { startS: dueS, endS: dueS + minute },
    );
    for (const before of [24 * hour, 2 * hour])
      due.createAlarm({
        type: ICalAlarmType.display,
        triggerBefore: before,
        description: `Scores of ${spec.name} are due in ${before / hour} h`,
      });
  }
  return calendar
    .toString()
    .replace(/\r?\n/g, "\r\n")
    .replace(/(?:\r\n)*$/, "\r\n");
}

function dated(atS: number): Date {
  return new Date(Math.round(atS) * 1000);
}

function slug(name: string): string {
  return encodeURIComponent(name.replace(/\p{Surrogate}/gu, ""));
}
