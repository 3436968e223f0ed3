import type { Rest } from "../3-plan/plan.js";
import type { StageState } from "./stage.js";
import type { ReadyTurn } from "./turn.js";

/** A rest that is waited for; one in proportion to the turn before is a time by then. */
export type Waited = Exclude<Rest["until"], { readonly kind: "ratio" }>;

/** Where one lane stands; a plan without lanes is one. */
export interface LaneState {
  atS: number;
  last: ReadyTurn | null;
  /** Seconds that the last turn took. */
  lastedS: number;
  /** What the lane's next turn waits for. */
  until: Waited[];
  /** Its place among lanes that run side by side; null where it runs alone. */
  readonly side: { readonly run: LaneRun; readonly place: number } | null;
}

export function newLane(atS: number, side: LaneState["side"]): LaneState {
  return { atS, last: null, lastedS: 0, until: [], side };
}

/** A rep or round of a lane that counts for a stage, and when it was done. */
interface Unit {
  readonly endS: number;
  readonly place: number;
}

/** Where the lanes together reach a stage's target, and how many of its units are each lane's. */
interface Stop {
  readonly atS: number;
  readonly quotas: readonly number[];
}

/** Lanes side by side. A lane knows its own units and what was there before; what they have together is found afterwards. */
export class LaneRun {
  private readonly stops = new Map<number, Stop>();
  private readonly units = new Map<StageState["tally"], { readonly stage: StageState; readonly before: number; readonly done: Unit[]; readonly own: number[] }>();

  constructor(
    readonly parent: LaneState,
    private readonly lanes: number,
  ) {}

  /** Forgets what the lanes did, not where they are to stop. */
  begin(): void {
    this.units.clear();
  }

  add(place: number, stage: StageState, endsS: readonly number[]): void {
    const { done, own } = this.of(stage);
    for (const endS of endsS) done.push({ endS, place });
    own[place] = (own[place] ?? 0) + endsS.length;
  }

  stopped(index: number): boolean {
    return this.stops.has(index);
  }

  /** When a stage ends for these lanes; Infinity where that is not known or never. */
  stopS(index: number): number {
    return this.stops.get(index)?.atS ?? Number.POSITIVE_INFINITY;
  }

  /** Units that a lane sees: those before the lanes, and its own. */
  seen(place: number, stage: StageState): number {
    const { before, own } = this.of(stage);
    return before + (own[place] ?? 0);
  }

  /** Units that a lane may still add. */
  remaining(place: number, stage: StageState): number {
    const quota = this.stops.get(stage.index)?.quotas[place];
    const seen = this.seen(place, stage);
    return quota === undefined ? mostIn(this.parent, stage) - seen : this.of(stage).before + quota - seen;
  }

  /** Finds the earliest target that was reached and is no stop yet, and makes it one; false where there is none. */
  stopNext(): boolean {
    let next: { readonly index: number; readonly stop: Stop } | null = null;
    for (const { stage, before, done } of this.units.values()) {
      const missing = mostIn(this.parent, stage) - before;
      if (this.stops.has(stage.index) || done.length < missing) continue;
      const wanted = [...done].sort((a, b) => a.endS - b.endS || a.place - b.place).slice(0, missing);
      const atS = wanted.at(-1)?.endS ?? this.parent.atS;
      if (next && next.stop.atS <= atS) continue;
      const quotas = Array.from({ length: this.lanes }, (_, place) => wanted.filter((unit) => unit.place === place).length);
      next = { index: stage.index, stop: { atS, quotas } };
    }
    if (next) this.stops.set(next.index, next.stop);
    return next !== null;
  }

  /** Hands the units to the stages, or to the lanes around these. */
  settle(): void {
    for (const { stage, done } of this.units.values()) {
      const { side } = this.parent;
      if (side) side.run.add(side.place, stage, done.map(({ endS }) => endS));
      else stage.tally.units += done.length;
    }
  }

  private of(stage: StageState) {
    const known = this.units.get(stage.tally);
    if (known) return known;
    const made = { stage, before: seenIn(this.parent, stage), done: [], own: [] };
    this.units.set(stage.tally, made);
    return made;
  }
}

function seenIn({ side }: LaneState, stage: StageState): number {
  return side ? side.run.seen(side.place, stage) : stage.tally.units;
}

/** The units at which a lane's stage is done, as far as the lane knows. */
function mostIn(lane: LaneState, stage: StageState): number {
  const target = stage.tally.target ?? Number.POSITIVE_INFINITY;
  return lane.side ? seenIn(lane, stage) + lane.side.run.remaining(lane.side.place, stage) : target;
}

/** Units that a lane may still add to a stage. */
export function remainingIn(lane: LaneState, stage: StageState): number {
  return mostIn(lane, stage) - seenIn(lane, stage);
}

/** Whether a lane takes a stage for done. Where lanes stop together, time alone tells. */
export function reachedIn(lane: LaneState, stage: StageState): boolean {
  return !lane.side?.run.stopped(stage.index) && remainingIn(lane, stage) <= 0;
}

/** When a stage ends for a lane, of all the lanes it runs beside. */
export function stopOf(lane: LaneState, index: number): number {
  let atS = Number.POSITIVE_INFINITY;
  for (let side = lane.side; side; side = side.run.parent.side) atS = Math.min(atS, side.run.stopS(index));
  return atS;
}
