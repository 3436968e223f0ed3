import { describe, expect, it } from "vitest";
import { kgPerLb, secondsOf, toBase } from "../../src/0-base/quantity.js";
import { fitCriticalRate } from "../../src/4-timeline/models/critical-rate.js";
import { brzyckiMax, epleyMax, maxFrom, repsAt } from "../../src/4-timeline/models/one-rep-max.js";
import { isoAt } from "../../src/0-base/zoned.js";

describe("critical rate", () => {
  // Data set of the R package cyclingtools (Mattioni Maturana et al., J Sci Med Sport 2018;21:742-747): published 266 W, 20 961 J.
  it("the published five trials give 265.47 W and 20 961 J", () => {
    const trials = [
      [446, 100],
      [385, 172],
      [324, 434],
      [290, 857],
      [280, 1361],
    ].map(([watts = 0, seconds = 0]) => ({ seconds, reps: watts * seconds }));
    const fit = fitCriticalRate(trials);
    expect(fit?.rate).toBeCloseTo(265.4721, 3);
    expect(fit?.stock).toBeCloseTo(20961.118, 1);
    expect(Math.round(fit?.stock ?? 0)).toBe(20961);
  });

  // The same package's critical-speed set: 4.52 m/s and 142 m.
  it("the published three runs give 4.52 m/s and 142 m", () => {
    const fit = fitCriticalRate([
      { seconds: 180, reps: 956 },
      { seconds: 300, reps: 1500 },
      { seconds: 720, reps: 3399 },
    ]);
    expect(fit?.rate).toBeCloseTo(4.5234, 3);
    expect(fit?.stock).toBeCloseTo(142.313, 2);
  });

  it("one trial gives none", () => {
    expect(fitCriticalRate([{ seconds: 300, reps: 33 }])).toBeNull();
  });
});

describe("one-rep maximum", () => {
  // Epley 1985, Brzycki 1993; check points for a load of 100.
  it.each([
    [1, 103.333, 100],
    [3, 110, 105.882],
    [5, 116.667, 112.5],
    [8, 126.667, 124.138],
    [10, 133.333, 133.333],
    [15, 150, 163.636],
  ])("%i reps", (reps, epley, brzycki) => {
    expect(epleyMax(100, reps)).toBeCloseTo(epley, 3);
    expect(brzyckiMax(100, reps)).toBeCloseTo(brzycki, 3);
  });

  it("both equations are equal at ten, Epley the higher below", () => {
    expect(epleyMax(100, 10)).toBeCloseTo(brzyckiMax(100, 10), 10);
    for (let reps = 1; reps < 10; reps += 1) expect(epleyMax(100, reps)).toBeGreaterThan(brzyckiMax(100, reps));
  });

  // BeniSportSci raw data (Mitter et al.): bench at 90 / 80 / 70 % gave 4.86 ± 1.17, 9.86 ± 1.17, 16.29 ± 2.30 reps.
  it.each([
    [0.9, 4.86, 1.17],
    [0.8, 9.86, 2 * 1.17],
  ])("at %f of the maximum the reps lie near those measured", (share, measured, within) => {
    expect(Math.abs(repsAt(100 * share, 100) - measured)).toBeLessThan(within);
  });

  it("errs on the careful side where the equations are known to: below 80 % of the maximum", () => {
    expect(repsAt(70, 100)).toBeLessThan(16.29);
  });

  it("is the inverse of itself above ten reps", () => {
    expect(repsAt(100, maxFrom(100, 14))).toBeCloseTo(14, 9);
  });
});

describe("units and times", () => {
  // International yard and pound agreement of 1959: 1 lb = 0.45359237 kg exactly.
  it.each([
    [45, 20.41165665],
    [225, 102.05828325],
  ])("%i lb are %f kg, exactly", (lb, kg) => {
    expect(toBase({ amount: lb, unit: "lb" })).toBeCloseTo(kg, 12);
    expect(toBase({ amount: lb, unit: "lb" }) / kgPerLb).toBeCloseTo(lb, 12);
  });

  it("reads clocks", () => {
    expect([secondsOf("2:30"), secondsOf("1:02:30"), secondsOf("0:05")]).toEqual([150, 3750, 5]);
  });

  // IANA tz rules for the United States since 2007; the gap and the overlap by RFC 5545, section 3.3.5.
  it.each([
    ["2026-10-26", "17:00", "2026-10-27T00:00:00.000Z"],
    ["2026-11-02", "17:00", "2026-11-03T01:00:00.000Z"],
    ["2026-03-02", "17:00", "2026-03-03T01:00:00.000Z"],
    ["2026-03-09", "17:00", "2026-03-10T00:00:00.000Z"],
    ["2026-03-08", "02:30", "2026-03-08T10:30:00.000Z"],
    ["2026-11-01", "01:30", "2026-11-01T08:30:00.000Z"],
  ])("%s %s in Los Angeles", (date, time, utc) => {
    expect(new Date(isoAt(date, time, "America/Los_Angeles") ?? "").toISOString()).toBe(utc);
  });

  it("has no answer for a zone or a day that there is not", () => {
    expect([isoAt("2026-02-30", "10:00", "UTC"), isoAt("2026-02-20", "10:00", "Nowhere/Land")]).toEqual([null, null]);
  });
});
