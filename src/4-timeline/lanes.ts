import type { Rest } from "../3-plan/plan.js";
import type { Chance } from "./draw.js";
import type { SharedRound } from "./shared-round.js";
import type { StageState } from "./stage.js";
import type { ReadyTurn } from "./turn.js";

/** A rest that is waited for; one in proportion to the turn before is a time by then. */
export type Waited = Exclude<Rest["until"], { readonly kind: "ratio" }>;

/** Two moments that are no further apart are one, in s. */
export const instantS = 1e-9;

/** Where one lane stands; a plan without lanes is one. */
export interface LaneState {
  atS: number;
  last: ReadyTurn | null;
  /** Number of its last handover among those of the plan: what a day draws for it hangs on that. */
  handovers: number;
  /** Seconds that the last turn took. */
  lastedS: number;
  /** What the lane's next turn waits for. */
  until: Waited[];
  /** No other stage than the one before begins sooner, by the event's own pause. */
  pause: { readonly after: number; readonly untilS: number } | null;
  /** Rounds that its turns share out and that are under way, by stage. */
  readonly shared: Map<number, SharedRound>;
  /** Its place among lanes that run side by side; null where it runs alone. */
  readonly side: { readonly run: LaneRun; readonly place: number } | null;
}

export function newLane(atS: number, side: LaneState["side"], handovers: number): LaneState {
  return { atS, last: null, handovers, lastedS: 0, until: [], pause: null, shared: new Map(), side };
}

/** More handovers than a lane has: lanes side by side draw their own, whatever the others do. */
const handoversOfLane = 10_000;

/** The reps or rounds of a stage that lanes did side by side. */
interface Units {
  readonly stage: StageState;
  /** Units of the stage before the lanes. */
  readonly before: number;
  /** By lane, when each was done. */
  readonly endsS: readonly number[][];
  /** Those that were taken back, and when. */
  readonly taken: { readonly atS: number; readonly units: number }[];
}

/** Where the lanes together reach a stage's target, and how many of its units are each lane's. */
interface Stop {
  readonly atS: number;
  readonly quotas: readonly number[];
}

/** Lanes side by side. A lane knows its own units and what was there before; what they have together is found afterwards. */
export class LaneRun {
  private readonly stops = new Map<number, Stop>();
  private readonly units = new Map<StageState["tally"], Units>();

  constructor(
    readonly parent: LaneState,
    private readonly lanes: number,
  ) {}

  /** Forgets what the lanes did, not where they are to stop. */
  begin(): void {
    this.units.clear();
  }

  /** A lane of these, from the moment at which they begin. */
  lane(place: number): LaneState {
    const { atS, handovers } = this.parent;
    return { ...newLane(atS, { run: this, place }, handovers + (place + 1) * handoversOfLane), pause: this.parent.pause };
  }

  add(place: number, stage: StageState, endsS: readonly number[]): void {
    const own = this.of(stage).endsS[place];
    for (const endS of endsS) own?.push(endS);
  }

  takeBack(stage: StageState, units: number, atS: number): void {
    this.of(stage).taken.push({ atS, units });
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
    const { before, endsS } = this.of(stage);
    return before + (endsS[place]?.length ?? 0);
  }

  /** Units that a lane may still add. */
  remaining(place: number, stage: StageState): number {
    const quota = this.stops.get(stage.index)?.quotas[place];
    const seen = this.seen(place, stage);
    const { before, taken } = this.of(stage);
    return quota === undefined ? mostIn(this.parent, stage) + unitsOf(taken) - seen : before + quota - seen;
  }

  /** Finds the earliest target that was reached and is no stop yet, and makes it one; false where there is none. */
  stopNext(): boolean {
    let next: { readonly index: number; readonly stop: Stop } | null = null;
    for (const { stage, before, endsS, taken } of this.units.values()) {
      const missing = mostIn(this.parent, stage) - before;
      if (this.stops.has(stage.index) || endsS.reduce((sum, { length }) => sum + length, 0) < missing) continue;
      const stop = firstOf(endsS, missing, this.parent.atS, taken);
      if (!stop || (next && next.stop.atS <= stop.atS)) continue;
      next = { index: stage.index, stop };
    }
    if (next) this.stops.set(next.index, next.stop);
    return next !== null;
  }

  /** Hands the units to the stages, or to the lanes around these. */
  settle(): void {
    const { side } = this.parent;
    for (const { stage, before, endsS, taken } of this.units.values()) {
      const done = endsS.reduce((sum, { length }) => sum + length, 0);
      if (side) {
        const ordered = endsS.flat().sort((a, b) => a - b);
        side.run.add(side.place, stage, ordered);
        for (const { atS, units } of taken) side.run.takeBack(stage, units, atS);
      } else stage.tally.units += this.stops.has(stage.index) ? mostIn(this.parent, stage) - before : done - unitsOf(taken);
    }
  }

  private of(stage: StageState) {
    const known = this.units.get(stage.tally);
    if (known) return known;
    const made = { stage, before: seenIn(this.parent, stage), endsS: Array.from({ length: this.lanes }, () => []), taken: [] };
    this.units.set(stage.tally, made);
    return made;
  }
}

function unitsOf(taken: Units["taken"]): number {
  return taken.reduce((sum, { units }) => sum + units, 0);
}

/**
 * Where lanes together have done so many, and what was taken back by then: each lane's own are in order; of two at one moment
 * the first lane's counts first. Null where they never have.
 */
function firstOf(endsS: readonly (readonly number[])[], wanted: number, startS: number, taken: Units["taken"]): Stop | null {
  const quotas = endsS.map(() => 0);
  let atS = startS;
  const due = (): number => wanted + unitsOf(taken.filter((back) => back.atS <= atS));
  for (let unit = 0; unit < (taken.length > 0 ? due() : wanted); unit += 1) {
    let [first, firstS] = [0, Number.POSITIVE_INFINITY];
    for (let place = 0; place < endsS.length; place += 1) {
      const nextS = endsS[place]?.[quotas[place] ?? 0] ?? Number.POSITIVE_INFINITY;
      if (nextS < firstS) [first, firstS] = [place, nextS];
    }
    if (firstS === Number.POSITIVE_INFINITY) return null;
    quotas[first] = (quotas[first] ?? 0) + 1;
    atS = firstS;
  }
  return { atS, quotas };
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

/** Units of a stage that were done, and when. */
export function addUnits({ side }: LaneState, stage: StageState, units: number, endsS: readonly number[]): void {
  if (side) side.run.add(side.place, stage, endsS);
  else stage.tally.units += units;
}

/** Units of a stage that have to be done again. */
export function takeBack(lane: LaneState, stage: StageState, units: number, atS: number): void {
  // Where the lanes' target is reached, nothing is left to be done again.
  if (lane.side && atS >= stopOf(lane, stage.index) - instantS) return;
  stage.taken += units;
  if (lane.side) lane.side.run.takeBack(stage, units, atS);
  else stage.tally.units -= units;
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

/** Seconds for the change to a turn: none where the same work and hold on; what a day makes of `seconds` hangs on the handover's number. */
export function changeS(lane: LaneState, { cast }: ReadyTurn, seconds: number, draw: Chance | null): number {
  if (!lane.last || lane.last.cast === cast) return 0;
  lane.handovers += 1;
  return seconds * (draw?.handover(lane.handovers) ?? 1);
}
