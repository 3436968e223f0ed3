import type { LogSpec, Seen } from "../3-plan/log.js";
import type { PlanSpec } from "../3-plan/plan.js";
import type { Abilities } from "./ability.js";
import type { Constants } from "../3-plan/assumptions.js";
import { Ensemble } from "./ensemble.js";
import { Simulator } from "./simulator.js";
import type { Outcome } from "./stage.js";

/** A line of a log that is a number of the run: s, or reps and rounds by a time. */
export interface Reading {
  readonly seen: Seen;
  readonly value: number;
  /** What a run says of the same. */
  readonly look: (run: Outcome) => number;
  /** Where the run is cut for it, s; null where it runs to its end. */
  readonly cutS: number | null;
}

/** How a line of a log is read off a run of its plan; null for a line that is no such number. */
export function readingOf(seen: Seen, { event }: PlanSpec): Reading | null {
  switch (seen.kind) {
    case "done": {
      const stage = event.stages.findIndex(({ name }) => name === seen.stage);
      if (stage < 0 || event.stages[stage]?.target === null) return null;
      return {
        seen,
        value: seen.atS,
        cutS: null,
        look: ({ stages }) => Math.max(0, ...stages.map(({ index, endS }) => (index === stage ? endS : 0))),
      };
    }
    case "finish":
      // At the cap everybody finishes: it says nothing.
      if (event.score !== "time" || (event.capS !== null && seen.atS >= event.capS)) return null;
      return { seen, value: seen.atS, cutS: null, look: ({ endS }) => endS };
    case "reps": {
      const rounds = event.stages.some((stage) => stage.rounds);
      return {
        seen,
        value: seen.reps,
        cutS: seen.atS,
        look: ({ stages, reps }) => (rounds ? stages.reduce((sum, one) => sum + one.rounds, 0) : reps),
      };
    }
    default:
      return null;
  }
}

/** What the plan had where a log has a number: its own run, and where eight days of ten lie. */
export interface Expected {
  readonly reading: Reading;
  readonly planned: number;
  readonly low: number;
  readonly high: number;
}

const days = 200;

/** A log's numbers beside its plan's. */
export function expectedOf({ seen }: LogSpec, plan: PlanSpec, abilities: Abilities, constants: Constants): readonly Expected[] {
  const readings = seen.flatMap((one) => readingOf(one, plan) ?? []);
  const ensemble = new Ensemble([plan], abilities, constants, days, 1);
  const seenBy = seeReadings(readings, ensemble, 0, plan);
  return readings.map((reading, nth): Expected => {
    const byDay = seenBy[nth] ?? new Float64Array(1);
    const sorted = byDay.toSorted();
    const at = (share: number): number => sorted[Math.floor(share * sorted.length)] ?? Number.NaN;
    return {
      reading,
      planned: reading.look(new Simulator(plan, abilities, constants, reading.cutS ?? endOf(plan)).run()),
      low: at(0.1),
      high: at(0.9),
    };
  });
}

/** Readings by day: all that needs no cut in one run of the days. */
export function seeReadings(readings: readonly Reading[], ensemble: Ensemble, at: number, plan: PlanSpec): readonly Float64Array[] {
  const uncut = readings.filter(({ cutS }) => cutS === null);
  const together =
    uncut.length > 0
      ? ensemble.see(
          at,
          endOf(plan),
          uncut.map(({ look }) => look),
        )
      : [];
  return readings.map(
    (reading) =>
      (reading.cutS === null ? together[uncut.indexOf(reading)] : ensemble.see(at, reading.cutS, [reading.look])[0]) ?? new Float64Array(1),
  );
}

/** Fixed work ends by itself; reps are counted to the cap. */
function endOf({ event }: PlanSpec): number | null {
  return event.score === "time" ? null : event.capS;
}
