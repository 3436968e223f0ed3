/** The calendar and the load of a week against the world outside. */
import { describe, expect, it } from "vitest";
import { isoAt, momentOf, wallAt, zoneData } from "../../src/0-base/zoned.js";
import { trainingLoadOf } from "../../src/4-timeline/week.js";

describe("session load (Foster 1998, Med Sci Sports Exerc 30:1164), formulas as secondary texts give them", () => {
  it("loads 0 300 450 200 600 0 350: sum 1900, monotony 1.31269, strain 2494.108, by the standard deviation of the population", () => {
    const load = trainingLoadOf([0, 300, 450, 200, 600, 0, 350]);
    expect(load.sum).toBe(1900);
    expect(load.monotony).toBeCloseTo(1.31269, 5);
    expect(load.strain).toBeCloseTo(2494.108, 2);
  });

  it("seven equal days have no monotony to tell", () => {
    expect(trainingLoadOf([5, 5, 5, 5, 5, 5, 5])).toEqual({ sum: 35, monotony: null, strain: null });
  });
});

// The IANA time zone database, rules US (2007–) and EU; instants worked out with Python's zoneinfo over its release 2026c.
describe("local hours", () => {
  it.each([
    ["2024-10-07 17:00", "2024-10-08T00:00:00Z", "once"],
    ["2025-10-06 17:00", "2025-10-07T00:00:00Z", "once"],
    ["2026-10-05 17:00", "2026-10-06T00:00:00Z", "once"],
    ["2027-10-04 17:00", "2027-10-05T00:00:00Z", "once"],
    ["2026-10-26 17:00", "2026-10-27T00:00:00Z", "once"],
    ["2026-11-02 17:00", "2026-11-03T01:00:00Z", "once"],
    ["2026-03-02 17:00", "2026-03-03T01:00:00Z", "once"],
    ["2026-03-09 17:00", "2026-03-10T00:00:00Z", "once"],
    ["2026-03-08 02:30", "2026-03-08T10:30:00Z", "skipped"],
    ["2025-03-09 02:30", "2025-03-09T10:30:00Z", "skipped"],
    ["2027-03-14 02:30", "2027-03-14T10:30:00Z", "skipped"],
    ["2028-03-12 02:30", "2028-03-12T10:30:00Z", "skipped"],
    ["2026-11-01 01:30", "2026-11-01T08:30:00Z", "twice"],
    ["2025-11-02 01:30", "2025-11-02T08:30:00Z", "twice"],
    ["2027-11-07 01:30", "2027-11-07T08:30:00Z", "twice"],
    ["2028-11-05 01:30", "2028-11-05T08:30:00Z", "twice"],
  ])("%s in Los Angeles is %s, shown by clocks %s", (local, utc, fold) => {
    const [date = "", time = ""] = local.split(" ");
    expect(momentOf(date, time, "America/Los_Angeles")).toEqual({ atS: Date.parse(utc) / 1000, fold });
  });

  // RFC 5545, section 3.3.5, its own two examples.
  it("New York: 1:30 of 2007-11-04 is the first, 05:30 UTC; 2:30 of 2007-03-11 counts by the offset before, 07:30 UTC", () => {
    expect(momentOf("2007-11-04", "01:30", "America/New_York")?.atS).toBe(Date.parse("2007-11-04T05:30Z") / 1000);
    expect(momentOf("2007-03-11", "02:30", "America/New_York")?.atS).toBe(Date.parse("2007-03-11T07:30Z") / 1000);
    expect(isoAt("2007-03-11", "02:30", "America/New_York")).toBe("2007-03-11T03:30:00-04:00");
  });

  it.each([
    ["America/New_York", "2026-10-05", "20:00"],
    ["Europe/London", "2026-10-06", "01:00"],
    ["Europe/Berlin", "2026-10-06", "02:00"],
    ["Asia/Kolkata", "2026-10-06", "05:30"],
    ["Asia/Tokyo", "2026-10-06", "09:00"],
    ["Australia/Sydney", "2026-10-06", "11:00"],
    ["Pacific/Auckland", "2026-10-06", "13:00"],
  ])("2026-10-05 17:00 in Los Angeles is in %s %s %s", (zone, date, time) => {
    expect(wallAt(momentOf("2026-10-05", "17:00", "America/Los_Angeles")?.atS ?? 0, zone)).toMatchObject({ date, time });
  });

  it("says how old the platform's zone data are: what British Columbia's clocks are in winter 2026 tells 2026b from before", () => {
    const { holds, lacks } = zoneData();
    const vancouver = wallAt(Date.parse("2026-12-07T17:00Z") / 1000, "America/Vancouver").time === "10:00";
    expect([vancouver, lacks === "2026b" || (holds !== null && holds < "2026b")]).toEqual([vancouver, !vancouver]);
  });
});
