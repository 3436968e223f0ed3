/** The calendar file against the checks of RFC 5545, read back by an independent parser and by a calendar program where one is. */
import { spawnSync } from "node:child_process";
import { mkdirSync, mkdtempSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import ICAL from "ical.js";
import { describe, expect, it } from "vitest";
import { lineAt, lineStarts } from "../../src/1-text/document.js";
import { weekCalendar } from "../../src/7-view/week-calendar.js";
import { weeksIn } from "../../src/7-view/week-ideas.js";
import { compile } from "../../src/compile.js";
import { lighthouse } from "../notebook.js";

const madeS = Date.parse("2026-03-15T12:00:00Z") / 1000;

function calendarOf(change: (week: string) => string = (week) => week, atS = madeS): string {
  const compiled = compile(
    lighthouse.map((document) => (document.path === "week.rota" ? { ...document, text: change(document.text) } : document)),
  );
  const [found] = weeksIn(compiled);
  if (!found) throw new Error("no week");
  const starts = lineStarts(found.text);
  return weekCalendar(found.week, found.block.answers, (offset) => lineAt(starts, offset), { atS });
}

const moved = (week: string): string =>
  week.replace("2026-03-23 18:00  Breakwater", "2026-03-24 18:00  Breakwater").replace("  2026-03-24        rest\n", "");
const eventsOf = (text: string) =>
  new ICAL.Component(ICAL.parse(text)).getAllSubcomponents("vevent").map((one) => ({ component: one, event: new ICAL.Event(one) }));

describe("a week's calendar file", () => {
  const text = calendarOf();
  const lines = text.split("\r\n");
  const unfolded = text.replace(/\r\n[ \t]/g, "").split("\r\n");

  it("C1–C3: lines end in CRLF, are 75 octets at most, cut no character, and unfold to what was meant", () => {
    expect(text.replaceAll("\r\n", "")).not.toMatch(/[\r\n]/);
    expect(Math.max(...lines.map((line) => Buffer.byteLength(line)))).toBeLessThanOrEqual(75);
    expect(text).not.toContain("\uFFFD");
    expect(unfolded.find((line) => line.startsWith("DESCRIPTION:Plan Steady"))).toMatch(
      /Much hanging tears skin\\, heavy holds.*come first\.$/,
    );
  });

  it("C4–C7: one calendar with PRODID and VERSION; each entry has one UID, DTSTAMP and DTSTART, and never both DTEND and DURATION", () => {
    const calendar = new ICAL.Component(ICAL.parse(text));
    expect([calendar.name, calendar.getAllProperties("prodid").length, calendar.getFirstPropertyValue("version")]).toEqual([
      "vcalendar",
      1,
      "2.0",
    ]);
    for (const { component, event } of eventsOf(text)) {
      for (const name of ["uid", "dtstamp", "dtstart"]) expect(component.getAllProperties(name)).toHaveLength(1);
      expect(component.getAllProperties("dtend").length + component.getAllProperties("duration").length).toBeLessThanOrEqual(1);
      if (component.hasProperty("dtend")) expect(event.endDate.compare(event.startDate)).toBe(1);
    }
    expect(unfolded.filter((line) => line.startsWith("DTSTAMP")).every((line) => line === "DTSTAMP:20260315T120000Z")).toBe(true);
  });

  it("C8: commas, semicolons and line ends are escaped, colons are not", () => {
    const description = unfolded.find((line) => line.startsWith("DESCRIPTION:Plan Steady")) ?? "";
    expect(description).toMatch(/\\n/);
    expect(description.replace(/\\[,;n\\]/g, "")).not.toMatch(/[,;]/);
    expect(description).toMatch(/\d:\d\d/);
  });

  it("C9–C12: instants are in UTC, so no TZID, no VTIMEZONE and no rule is needed; days are dates", () => {
    expect(text).not.toMatch(/TZID|VTIMEZONE|RRULE/);
    for (const line of unfolded.filter((one) => /^DT(START|END)/.test(one)))
      expect(line).toMatch(/^DT(START|END)(:\d{8}T\d{6}Z|;VALUE=DATE:\d{8})$/);
    // 18:00 in Halifax on 2026-03-23, by summer time, is 21:00 UTC.
    expect(unfolded).toContain("DTSTART:20260323T210000Z");
    expect(unfolded).toContain("DTSTART;VALUE=DATE:20260322");
  });

  it("C13: an alarm has action, trigger and description: 45 min before each event; a day and two hours before the scores are due", () => {
    const alarms = eventsOf(text).map(({ component, event }) => [
      event.summary,
      component
        .getAllSubcomponents("valarm")
        .map((alarm) => [
          alarm.getFirstPropertyValue("action"),
          String(alarm.getFirstPropertyValue("trigger")),
          alarm.hasProperty("description"),
        ]),
    ]);
    expect(alarms).toContainEqual(["Breakwater", [["DISPLAY", "-PT45M", true]]]);
    expect(alarms).toContainEqual([
      "Scores due: Lighthouse Three",
      [
        ["DISPLAY", "-P1D", true],
        ["DISPLAY", "-PT2H", true],
      ],
    ]);
  });

  it("C14: each entry has a UID of its own, the same in a later file, with a higher SEQUENCE: what moved is moved", () => {
    const [before, after] = [eventsOf(text), eventsOf(calendarOf(moved, madeS + 3600))].map(
      (events) =>
        new Map(
          events.map(
            ({ component, event }) =>
              [event.uid, { start: event.startDate.toString(), sequence: Number(component.getFirstPropertyValue("sequence")) }] as const,
          ),
        ),
    );
    expect(before?.size).toBe(eventsOf(text).length);
    const uid = [...(before?.keys() ?? [])].find((one) => one.includes("Breakwater")) ?? "";
    expect([before?.get(uid)?.start, after?.get(uid)?.start]).toEqual(["2026-03-23T21:00:00Z", "2026-03-24T21:00:00Z"]);
    expect(after?.get(uid)?.sequence).toBeGreaterThan(before?.get(uid)?.sequence ?? 0);
  });

  it("two tries of an event, and names with marks, have UIDs of their own", () => {
    for (const one of [
      text,
      calendarOf((week) => `${week}  2026-03-26 15:00  Two Ladders   again\n`),
      calendarOf((week) => week.replace("Lighthouse Three", '"Lighthouse; Three, fast"')),
    ]) {
      const uids = eventsOf(one).map(({ event }) => event.uid);
      expect(new Set(uids).size).toBe(uids.length);
    }
  });

  // khal, a calendar program of Debian's packages that runs without a screen; left out where it is not installed.
  it.skipIf(spawnSync("khal", ["--version"]).error !== undefined)("is taken by khal, and a second file moves what moved", () => {
    const folder = mkdtempSync(join(tmpdir(), "rotaline-khal-"));
    mkdirSync(join(folder, "calendar"));
    writeFileSync(
      join(folder, "config"),
      `[calendars]\n[[own]]\npath = ${join(folder, "calendar")}\n[locale]\ntimeformat = %H:%M\ndateformat = %Y-%m-%d\nlongdateformat = %Y-%m-%d\ndatetimeformat = %Y-%m-%d %H:%M\nlongdatetimeformat = %Y-%m-%d %H:%M\nlocal_timezone = America/Halifax\ndefault_timezone = America/Halifax\n[sqlite]\npath = ${join(folder, "khal.db")}\n`,
    );
    const khal = (...args: readonly string[]): string =>
      spawnSync("khal", ["-c", join(folder, "config"), ...args], { encoding: "utf8" }).stdout;
    const taken = (file: string): readonly string[] => {
      writeFileSync(join(folder, "week.ics"), file);
      khal("import", "--batch", join(folder, "week.ics"));
      return khal("list", "--format", "{start-date} {start-time} {title}", "--day-format", "", "2026-03-20", "2026-03-28")
        .trim()
        .split("\n")
        .map((line) => line.trim());
    };
    expect(taken(text)).toEqual(
      expect.arrayContaining([
        "2026-03-20 18:00 Two Ladders",
        "2026-03-22  Rest day",
        "2026-03-23 18:00 Breakwater",
        "2026-03-26 17:00 Scores due: Lighthouse Three",
      ]),
    );
    const after = taken(calendarOf(moved, madeS + 3600));
    expect(after).toContain("2026-03-24 18:00 Breakwater");
    expect(after).not.toContain("2026-03-23 18:00 Breakwater");
  });
});
