/** What a stage's target counts, over all its blocks and lanes: reps, or rounds where it is made of rounds. */
export interface Tally {
  readonly target: number | null;
  units: number;
}

export function newTally(target: number | null): Tally {
  return { target, units: 0 };
}

/** What one block of a stage has so far. */
export interface StageState {
  readonly index: number;
  /** The node of its block; 0, the plan, where the plan needs no block for it. */
  readonly step: number;
  readonly startS: number;
  endS: number;
  readonly tally: Tally;
  reps: number;
  /** Reps that dropped holds took: the score and a target are without them. */
  taken: number;
  rounds: number;
  /** By place in the team. */
  readonly repsBy: number[];
}

/** What a run of a plan came to. */
export interface Outcome {
  readonly endS: number;
  /** Every stage reached its target. */
  readonly finished: boolean;
  readonly reps: number;
  readonly stopped: "done" | "cap" | "endless";
  readonly stages: readonly StageState[];
}

export function reached({ tally: { target, units } }: StageState): boolean {
  return target !== null && units >= target;
}
