import type { Dimension } from "../0-base/quantity.js";

/** A constant of the models: its default, the range it may be set in by `assume`, and where it comes from. */
export interface Assumption {
  readonly value: number;
  readonly dimension: Dimension | "number";
  readonly least: number;
  readonly most: number;
  /** Published source, or "assumed". */
  readonly source: string;
  readonly about: string;
}

/** Every constant of the models, by the name `assume` uses; values in base units (s, fractions, plain numbers). */
const hour = 3600;

export const assumptions = {
  handover: {
    value: 3,
    dimension: "time",
    least: 0,
    most: 60,
    source: "assumed",
    about: "a change of the athletes who work, where the event gives none",
  },
  "fast share": {
    value: 0.6,
    dimension: "share",
    least: 0,
    most: 1,
    source: "fitted to repetitions over sets against rest (Faigenbaum 2008, Ratamess 2010)",
    about: "part of a rep's effort that the fast pool bears",
  },
  "fast recovery": {
    value: 31,
    dimension: "time",
    least: 5,
    most: 300,
    source: "phosphocreatine half-time 21.5 s (Harris et al. 1976)",
    about: "time constant of the fast pool",
  },
  "slow recovery": {
    value: 300,
    dimension: "time",
    least: 60,
    most: 3600,
    source: "fitted to repetitions over sets against rest; half-time over 170 s (Harris et al. 1976)",
    about: "time constant of the slow pool",
  },
  fade: {
    value: 0.5,
    dimension: "share",
    least: 0,
    most: 3,
    source: "assumed",
    about: "how much slower the last rep before failure is, where no row says",
  },
  unbroken: { value: 15, dimension: "count", least: 1, most: 500, source: "assumed", about: "most reps in a row, where no row says" },
  cycle: { value: 2.5, dimension: "time", least: 0.3, most: 60, source: "assumed", about: "seconds a rep when fresh, where no row says" },
  hold: { value: 60, dimension: "time", least: 5, most: 1800, source: "assumed", about: "seconds to failure on a hold, where no row says" },
  "miss cost": {
    value: 3,
    dimension: "time",
    least: 0,
    most: 60,
    source: "assumed",
    about: "lost by a missed rep on top of its cycle time",
  },
  "set-up": {
    value: 1,
    dimension: "time",
    least: 0,
    most: 5,
    source: "common practice, no source",
    about: "to take up a movement again after a pause, where the event gives none",
  },
  "ready margin": {
    value: 0.05,
    dimension: "share",
    least: 0,
    most: 0.5,
    source: "assumed",
    about: "of the reserve, what a set is to leave of which one waits until ready: nobody knows the own to the rep",
  },
  "step cost": { value: 0.3, dimension: "time", least: 0, most: 5, source: "assumed", about: "added to each rep in sync" },
  "step no-rep": {
    value: 0,
    dimension: "share",
    least: 0,
    most: 0.9,
    source: "assumed",
    about: "chance of a no-rep in sync with both reserves spent; it costs the time and the effort of a rep",
  },
  "break rest": {
    value: 5,
    dimension: "time",
    least: 0,
    most: 300,
    source: "assumed",
    about: "rest between the parts of a broken set, where none is written",
  },
  "hold fatigue": {
    value: 0.0098,
    dimension: "number",
    least: 1e-5,
    most: 1,
    source: "hand/grip F, Frey-Law et al. 2012",
    about: "rate at which held muscle tires, per second",
  },
  "hold recovery": {
    value: 0.00064,
    dimension: "number",
    least: 1e-6,
    most: 1,
    source: "hand/grip R, Frey-Law et al. 2012",
    about: "rate at which tired muscle comes back, per second",
  },
  "hold rest factor": {
    value: 14,
    dimension: "number",
    least: 1,
    most: 100,
    source:
      "found from intermittent grip at half of the maximum (Gonzales & Scheuermann 2007) and the half-time of recovery (Sahlin & Ren 1989)",
    about: "how much faster it comes back off the hold",
  },
  "carry-over": {
    value: 0.5,
    dimension: "share",
    least: 0,
    most: 1,
    source: "assumed",
    about: "of the reserve that one piece of work spends, what it spends of another that asks for the same parts of the body",
  },
  regrip: {
    value: 10,
    dimension: "time",
    least: 1,
    most: 120,
    source: "assumed",
    about: "seconds of hold that must be possible again before a dropped hold is taken up",
  },
  "engine half-life": {
    value: 18 * hour,
    dimension: "time",
    least: hour,
    most: 1000 * hour,
    source: "assumed, within the 24 to 72 h after which studies of recovery find no more",
    about: "time in which half of what an event left in engine is gone",
  },
  "pull half-life": {
    value: 36 * hour,
    dimension: "time",
    least: hour,
    most: 1000 * hour,
    source: "assumed, within the 24 to 72 h after which studies of recovery find no more",
    about: "time in which half of what an event left in pull is gone",
  },
  "push half-life": {
    value: 36 * hour,
    dimension: "time",
    least: hour,
    most: 1000 * hour,
    source: "assumed, within the 24 to 72 h after which studies of recovery find no more",
    about: "time in which half of what an event left in push is gone",
  },
  "trunk half-life": {
    value: 36 * hour,
    dimension: "time",
    least: hour,
    most: 1000 * hour,
    source: "assumed, within the 24 to 72 h after which studies of recovery find no more",
    about: "time in which half of what an event left in trunk is gone",
  },
  "grip half-life": {
    value: 36 * hour,
    dimension: "time",
    least: hour,
    most: 1000 * hour,
    source: "assumed, within the 24 to 72 h after which studies of recovery find no more",
    about: "time in which half of what an event left in grip is gone",
  },
  "squat half-life": {
    value: 48 * hour,
    dimension: "time",
    least: hour,
    most: 1000 * hour,
    source: "assumed, within the 24 to 72 h after which studies of recovery find no more",
    about: "time in which half of what an event left in squat is gone",
  },
  "hinge half-life": {
    value: 48 * hour,
    dimension: "time",
    least: hour,
    most: 1000 * hour,
    source: "assumed, within the 24 to 72 h after which studies of recovery find no more",
    about: "time in which half of what an event left in hinge is gone",
  },
  "hands half-life": {
    value: 96 * hour,
    dimension: "time",
    least: hour,
    most: 1000 * hour,
    source: "assumed, within the 24 to 72 h after which studies of recovery find no more",
    about: "time in which half of what an event left in the skin of the hands is gone",
  },
  "load cost": {
    value: 0.04,
    dimension: "share",
    least: 0,
    most: 0.5,
    source: "assumed",
    about: "of capacity, what an unbroken set's worth of work that is still in a part of the body costs what asks for that part alone",
  },
} as const satisfies Readonly<Record<string, Assumption>>;

export type AssumptionName = keyof typeof assumptions;

/** The values in force, in base units. */
export type Constants = Readonly<Record<AssumptionName, number>>;

export function isAssumption(name: string): name is AssumptionName {
  return Object.hasOwn(assumptions, name);
}

export const assumptionNames: readonly AssumptionName[] = Object.keys(assumptions).filter(isAssumption);

/** The defaults with some values replaced. */
export function constantsWith(replaced: ReadonlyMap<AssumptionName, number>): Constants {
  const value = (name: AssumptionName): number => replaced.get(name) ?? assumptions[name].value;
  return {
    handover: value("handover"),
    "fast share": value("fast share"),
    "fast recovery": value("fast recovery"),
    "slow recovery": value("slow recovery"),
    fade: value("fade"),
    unbroken: value("unbroken"),
    cycle: value("cycle"),
    hold: value("hold"),
    "miss cost": value("miss cost"),
    "set-up": value("set-up"),
    "ready margin": value("ready margin"),
    "step cost": value("step cost"),
    "step no-rep": value("step no-rep"),
    "break rest": value("break rest"),
    "hold fatigue": value("hold fatigue"),
    "hold recovery": value("hold recovery"),
    "hold rest factor": value("hold rest factor"),
    "carry-over": value("carry-over"),
    regrip: value("regrip"),
    "engine half-life": value("engine half-life"),
    "pull half-life": value("pull half-life"),
    "push half-life": value("push half-life"),
    "trunk half-life": value("trunk half-life"),
    "grip half-life": value("grip half-life"),
    "squat half-life": value("squat half-life"),
    "hinge half-life": value("hinge half-life"),
    "hands half-life": value("hands half-life"),
    "load cost": value("load cost"),
  };
}
