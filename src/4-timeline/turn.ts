import type { Constants } from "../3-plan/assumptions.js";
import { repsInPass, type Turn, type Work } from "../3-plan/plan.js";
import type { Body, Grip } from "./body.js";
import { Crew } from "./crew.js";
import type { Chance } from "./draw.js";
import { afterHolding, afterResting, enduranceOf, restToHold, secondsLeft } from "./models/hold.js";
import { leftAfter, restUntil } from "./models/reserve.js";
import type { Drop } from "./timeline.js";

/** The share of the reserve at which nobody waits any longer to be ready: more never comes back within an event. */
export const readyShare = 0.99;

/** A stretch of time in which a hold is held. */
export interface Held {
  readonly startS: number;
  readonly endS: number;
}

/** A turn made ready to be run many times. */
export interface ReadyTurn {
  readonly turn: Turn;
  readonly sets: readonly ReadySet[];
  readonly grips: readonly Grip[];
  /** The same for two turns in which the same work and hold: no handover lies between them. */
  readonly cast: string;
  passes: number;
}

/** One movement of a turn with its crews. `run` begins it; the fields tell how it went. */
export class ReadySet {
  endS = 0;
  /** Reps that counted, by all. */
  reps = 0;
  held: Held[] = [];
  drops: Drop[] = [];
  readonly crews: readonly Crew[];
  private readonly begunTired: number[];
  /** Each crew's set of a pass; refilled in place where it is not broken. */
  private readonly parts: readonly number[][];

  constructor(
    readonly work: Work,
    readonly bodies: readonly Body[],
    private readonly grips: readonly Grip[],
    setUpS: number,
    private readonly constants: Constants,
  ) {
    const restS = work.broken?.restS ?? 0;
    const rhythm = work.rhythm;
    const groups = rhythm === "each" ? bodies.map((body) => [body]) : [bodies];
    this.crews = groups.map((group) => new Crew(group, rhythm, restS, setUpS, constants));
    this.begunTired = grips.map(() => 0);
    this.parts = this.crews.map(() => work.broken?.parts.filter((reps) => reps > 0) ?? [0]);
  }

  get done(): boolean {
    for (const crew of this.crews) if (!crew.done) return false;
    return true;
  }

  /** Ends of counted reps, in order. */
  get repEndsS(): readonly number[] {
    const ends: number[] = [];
    for (const crew of this.crews) for (let rep = 0; rep < crew.reps; rep += 1) ends.push(crew.repEndsS[rep] ?? 0);
    return this.crews.length > 1 ? ends.sort((a, b) => a - b) : ends;
  }

  /**
   * Runs the set, cut to what its stage has left: it ends with the last rep that is wanted, and each crew keeps the reps
   * it had by then. `stopped`: the stage is known to end at the deadline, whatever is done by then.
   */
  run(pass: number, startS: number, deadlineS: number, remaining: number, stopped: boolean): void {
    for (let at = 0; at < this.grips.length; at += 1) {
      const grip = this.grips[at];
      if (grip) this.begunTired[at] = afterResting(grip.tired, grip.hold, startS - grip.atS);
    }
    this.attempt(pass, startS, deadlineS, null);
    if (this.reps > remaining || (this.reps === remaining && !stopped && !this.done)) {
      const inOrder = this.crews
        .flatMap((crew, at) => crew.repEndsS.slice(0, crew.reps).map((endS) => ({ endS, at })))
        .sort((a, b) => a.endS - b.endS || a.at - b.at)
        .slice(0, remaining);
      const most = this.crews.map((_, at) => inOrder.filter((rep) => rep.at === at).length);
      for (const crew of this.crews) crew.back();
      this.attempt(pass, startS, stopped ? deadlineS : (inOrder.at(-1)?.endS ?? startS), most);
    }
    for (const crew of this.crews) crew.commit();
    for (const grip of this.grips) grip.atS = this.endS;
  }

  /** Seconds of rest from a moment until athletes can do the whole set without a miss, or have as much back as anybody waits for. */
  waitFor(pass: number, athletes: readonly string[], fromS: number): number {
    let longestS = 0;
    this.crews.forEach((crew, at) => {
      if (!crew.names.some((name) => athletes.includes(name))) return;
      for (const body of crew.bodies) body.begin(fromS);
      longestS = Math.max(longestS, backBy(crew.waitFor(this.partsOf(at, pass), this.constants["ready margin"]), crew));
      crew.back();
    });
    return longestS;
  }

  private partsOf(crew: number, pass: number): readonly number[] {
    const parts = this.parts[crew] ?? [];
    if (!this.work.broken) parts[0] = repsInPass(this.work, crew, pass);
    return parts;
  }

  /** Runs the set to the deadline, with a pause at every hold that fails: down, recovered enough, up again. */
  private attempt(pass: number, startS: number, deadlineS: number, most: readonly number[] | null): void {
    const { crews, grips } = this;
    if (this.held.length > 0) this.held = [];
    if (this.drops.length > 0) this.drops = [];
    this.endS = startS;
    for (let at = 0; at < crews.length; at += 1) {
      const parts = this.partsOf(at, pass);
      crews[at]?.begin(parts, sumOf(parts), startS, most?.[at] ?? Number.POSITIVE_INFINITY);
    }
    for (let at = 0; at < grips.length; at += 1) {
      const grip = grips[at];
      if (grip) grip.tired = this.begunTired[at] ?? 0;
    }
    while (!this.runUntilDrop(deadlineS));
    this.reps = 0;
    for (const crew of crews) this.reps += crew.reps;
  }

  /** One stretch of holding. True when the set is over. */
  private runUntilDrop(deadlineS: number): boolean {
    const { crews, grips } = this;
    let failsS = Number.POSITIVE_INFINITY;
    for (const { tired, hold } of grips) failsS = Math.min(failsS, this.endS + secondsLeft(tired, hold));
    const untilS = Math.min(deadlineS, failsS);
    for (const crew of crews) crew.run(untilS);
    if (this.done) {
      let lastS = this.endS;
      for (const crew of crews) lastS = Math.max(lastS, crew.atS);
      this.hold(lastS);
      return true;
    }
    this.hold(untilS);
    if (failsS >= deadlineS) return true;
    for (const { athlete, tired, hold } of grips) {
      if (secondsLeft(tired, hold) < 1e-6) this.drops.push({ athlete, atS: this.endS });
    }
    const resumeS = Math.min(deadlineS, this.endS + this.pauseAfterDrop());
    for (const grip of grips) grip.tired = afterResting(grip.tired, grip.hold, resumeS - this.endS);
    for (const crew of crews) crew.pause(resumeS);
    this.endS = resumeS;
    return resumeS >= deadlineS;
  }

  private hold(endS: number): void {
    if (this.grips.length > 0 && endS > this.endS) this.held.push({ startS: this.endS, endS });
    for (const grip of this.grips) grip.tired = afterHolding(grip.tired, grip.hold, endS - this.endS);
    this.endS = endS;
  }

  /** The cost of a miss, and at least until every holder can hold for `regrip` s (or half a fresh hold) again. */
  private pauseAfterDrop(): number {
    let longestS = this.constants["miss cost"];
    for (const { tired, hold } of this.grips) {
      longestS = Math.max(longestS, restToHold(tired, hold, Math.min(this.constants.regrip, enduranceOf(hold) / 2)));
    }
    return longestS;
  }
}

function sumOf(parts: readonly number[]): number {
  let sum = 0;
  for (const reps of parts) sum += reps;
  return sum;
}

/** A wait, or less where everybody has as much back before: that is looked for only where it can be. */
function backBy(waitS: number, { bodies }: Crew): number {
  if (bodies.some(({ pools, reserve }) => leftAfter(pools, reserve, waitS) < readyShare)) return waitS;
  return Math.min(waitS, Math.max(...bodies.map(({ pools, reserve }) => restUntil(pools, reserve, readyShare))));
}

/** The paces that a day draws for a turn's sets; `setsBy` counts them by place. */
export function setPaces({ sets }: ReadyTurn, draw: Chance, setsBy: number[]): void {
  for (const { bodies, crews } of sets) {
    if (draw.lost) for (const crew of crews) crew.lost = draw.lost(crew.bodies[0]?.place ?? 0, crew.bodies[1]?.place ?? 0);
    for (const body of bodies) {
      const nth = setsBy[body.place] ?? 0;
      body.pace = draw.set(body.place, nth);
      setsBy[body.place] = nth + 1;
    }
  }
}
