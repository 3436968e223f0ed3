/** What a plan does in time, as plain data. Times in s from the event's start; steps are ids of the plan's nodes. */

export type Activity = "work" | "hold" | "rest" | "handover" | "wait";

export interface Segment {
  readonly athlete: string;
  readonly activity: Activity;
  readonly startS: number;
  readonly endS: number;
  readonly step: number | null;
  /** The movement worked or the hold held. */
  readonly subject: string | null;
  readonly reps: number;
}

/** A rep that was tried and was not there. */
export interface Miss {
  readonly athlete: string;
  readonly atS: number;
  /** Reps done of the set before it. */
  readonly after: number;
  readonly of: number;
}

export interface Drop {
  readonly athlete: string;
  readonly atS: number;
}

/** One passage through a turn. */
export interface TurnRun {
  readonly step: number;
  readonly pass: number;
  readonly stage: number;
  readonly startS: number;
  readonly endS: number;
  readonly athletes: readonly { readonly name: string; readonly reps: number; readonly left: number }[];
  /** What counts for the stage in this turn: reps, or rounds where the stage is made of rounds. */
  readonly counted: number;
  /** What its workers waited for a rest that was asked for, beyond the handover. */
  readonly waitedS: number;
  readonly misses: readonly Miss[];
  readonly drops: readonly Drop[];
  readonly holders: readonly string[];
  /** Ends of the reps that count, in order. */
  readonly repEndsS: readonly number[];
}

/**
 * An athlete's reserve for a movement at the end of a set, and how it comes back: what is spent is fast·e^(−t·fastRate)
 * + slow·e^(−t·slowRate).
 */
export interface ReserveRun {
  readonly athlete: string;
  readonly subject: string;
  readonly startS: number;
  readonly endS: number;
  /** Spent, as fractions of the whole reserve. */
  readonly fast: number;
  readonly slow: number;
  /** 1/s. */
  readonly fastRate: number;
  readonly slowRate: number;
}

export interface RestRun {
  readonly step: number;
  readonly startS: number;
  readonly endS: number;
  /** Who of those who last worked had least left, and how much, before and after. */
  readonly before: RestLeft | null;
  readonly after: RestLeft | null;
}

export interface RestLeft {
  readonly athlete: string;
  readonly left: number;
}

export interface RepeatRun {
  readonly step: number;
  readonly passes: number;
  readonly startS: number;
  readonly endS: number;
}

export interface StageRun {
  readonly stage: number;
  readonly name: string;
  /** The node of its block; 0, the plan, where the plan needs no block for it. */
  readonly step: number;
  readonly startS: number;
  readonly endS: number;
  readonly reps: number;
  readonly rounds: number;
  readonly target: number | null;
  readonly reached: boolean;
  readonly repsBy: Readonly<Record<string, number>>;
}

/** The reps of all stages. */
export function repsDone({ stages }: Pick<Timeline, "stages">): number {
  return stages.reduce((sum, { reps }) => sum + reps, 0);
}

/** `work`, `hold` and `rest` sum to the plan's duration; rest is all that is neither work nor hold. */
export interface AthleteTotals {
  readonly name: string;
  readonly reps: number;
  readonly work: number;
  readonly hold: number;
  readonly rest: number;
  /** Of the reps of all. */
  readonly share: number;
}

/** How far a stage is when a turn ends, by all who work for it; where it runs to the end of a window, in that window. */
export interface Standing {
  /** What the target counts: reps, or rounds. */
  readonly units: number;
  readonly reps: number;
}

export interface Timeline {
  readonly endS: number;
  readonly capS: number | null;
  readonly score: { readonly kind: "time" | "reps"; readonly value: number; readonly finished: boolean };
  /** Why the plan ended: its last line, the cap, or more turns than can be meant. */
  readonly stopped: "done" | "cap" | "endless";
  readonly stages: readonly StageRun[];
  readonly turns: readonly TurnRun[];
  /** By turn, in the order of `turns`. */
  readonly standings: readonly Standing[];
  readonly rests: readonly RestRun[];
  readonly reserves: readonly ReserveRun[];
  readonly repeats: readonly RepeatRun[];
  readonly athletes: readonly AthleteTotals[];
  /** By athlete, in order of time. */
  readonly segments: readonly Segment[];
}
