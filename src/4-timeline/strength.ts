import type { Constants } from "../3-plan/assumptions.js";
import type { Seen } from "../3-plan/log.js";
import { subjectKey } from "../3-plan/names.js";
import type { PlanSpec } from "../3-plan/plan.js";
import type { Abilities } from "./ability.js";
import type { Chance } from "./draw.js";
import { simulate } from "./simulate.js";
import { Simulator } from "./simulator.js";
import type { RunSubject } from "./subjects.js";
import type { Timeline } from "./timeline.js";

/** How strong an athlete must have been that day, for a miss or a dropped hold to come when it came. */
export interface Strength {
  /** By key. */
  readonly subject: string;
  readonly hold: boolean;
  /** The logarithm of the factor on what was tested, and its standard deviation. */
  readonly logFactor: number;
  readonly sd: number;
}

/** Of what no log tells — the pace of each set, the others' — in the logarithm; measured on drawn days (`tests/log/`). */
const otherwise = { broke: 0.03, dropped: 0.05 } as const;
const [weakest, strongest] = [Math.log(0.4), Math.log(2.5)];
const halvings = 9;

/** The factor with which the plan's own run has its first miss after so many reps, or its first drop at that time; null where none has. */
export function strengthSeen(
  seen: Extract<Seen, { kind: "broke" | "dropped" }>,
  plan: PlanSpec,
  abilities: Abilities,
  constants: Constants,
): Strength | null {
  const all = new Simulator(plan, abilities, constants, null).subjects.filter(
    ({ athlete, hold }) => athlete === seen.athlete && hold === (seen.kind === "dropped"),
  );
  const subject =
    seen.kind === "broke" && seen.movement !== null
      ? all.find((one) => one.subject === seen.movement)
      : all.length === 1
        ? all[0]
        : undefined;
  if (!subject) return null;
  const when = (logFactor: number): number => {
    const timeline = simulate(plan, abilities, constants, { ignoreCap: true, chance: oneStronger(subject, Math.exp(logFactor)) });
    return seen.kind === "broke" ? repsAtMiss(timeline, subject) : dropAt(timeline, seen.athlete);
  };
  const [from, to] = seen.kind === "broke" ? [seen.after - 0.5, seen.after + 0.5] : [seen.atS - 2, seen.atS + 2];
  const [low, high] = [crossing(when, from), crossing(when, to)];
  if (low <= weakest + 1e-9 || high >= strongest - 1e-9) return null;
  return {
    subject: subject.subject,
    hold: subject.hold,
    logFactor: (low + high) / 2,
    sd: Math.hypot(otherwise[seen.kind], (high - low) / Math.sqrt(12)),
  };
}

/** Where a number that grows with strength comes to be at least so much: by halving. */
function crossing(when: (logFactor: number) => number, least: number): number {
  let [low, high] = [weakest, strongest];
  for (let nth = 0; nth < halvings; nth += 1) {
    const middle = (low + high) / 2;
    if (when(middle) >= least) high = middle;
    else low = middle;
  }
  return (low + high) / 2;
}

function oneStronger({ place, number }: RunSubject, factor: number): Chance {
  return {
    ability: (at, subject) => (at === place && subject === number ? factor : 1),
    recovery: () => 1,
    cycle: () => 1,
    set: () => 1,
    handover: () => 1,
  };
}

/** Reps of a movement that an athlete has done in all when the first one is missed; Infinity where none is. */
export function repsAtMiss({ turns, segments }: Timeline, { athlete, subject }: Pick<RunSubject, "athlete" | "subject">): number {
  const mine = segments.filter((one) => one.athlete === athlete && one.activity === "work");
  const misses = turns.flatMap((run) => run.misses.filter((miss) => miss.athlete === athlete)).sort((a, b) => a.atS - b.atS);
  // A miss is of the movement that the athlete was at: of a round, one of several.
  const first = misses.find(({ atS }) => subjectKey(mine.findLast(({ startS }) => startS <= atS + 1e-6)?.subject ?? "") === subject);
  if (!first) return Number.POSITIVE_INFINITY;
  const before = mine.filter((one) => subjectKey(one.subject ?? "") === subject && one.startS <= first.atS + 1e-6);
  return before.reduce((sum, { reps }) => sum + reps, 0);
}

/** When an athlete first drops a hold, in s; Infinity where none is dropped. */
export function dropAt({ turns }: Timeline, athlete: string): number {
  return Math.min(
    Number.POSITIVE_INFINITY,
    ...turns.flatMap(({ drops }) => drops.filter((drop) => drop.athlete === athlete).map(({ atS }) => atS)),
  );
}
