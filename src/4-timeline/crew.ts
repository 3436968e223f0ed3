import type { Constants } from "../3-plan/assumptions.js";
import type { Rhythm } from "../3-plan/plan.js";
import type { Body } from "./body.js";
import {
  aimedAt,
  cycleOf,
  exhaust,
  left,
  mostSpent,
  peakOf,
  recover,
  repsInRow,
  spent,
  waitUntil,
  within,
  work,
} from "./models/reserve.js";
import type { Miss } from "./timeline.js";

const together = 1e-9;

/** A stretch of a crew's time. */
export interface WorkStretch {
  readonly activity: "work" | "wait";
  readonly startS: number;
  endS: number;
  reps: number;
}

/** The athletes who share one rhythm, doing one set at a time: `begin`, then `run` until it is done or time is up. */
export class Crew {
  atS = 0;
  /** Reps that count, and when each ended: the first `reps` of the list. */
  reps = 0;
  readonly repEndsS: number[] = [];
  misses: Miss[] = [];
  stretches: WorkStretch[] = [];
  /** Of the tries in step, the share lost to no-reps whatever the two have left. */
  lost = 0;
  /** Tries behind a counted rep: more than one where tries in step are lost. */
  private tried = 1;
  /** Whether stretches are wanted: a run for the score alone goes without. */
  noting = false;
  private parts: readonly number[] = [];
  private size = 0;
  private part = 0;
  private inPart = 0;
  private most = Number.POSITIVE_INFINITY;
  private restingUntilS = 0;
  /** The only one of the crew; null where two keep one rhythm. */
  private readonly only: Body | null;

  constructor(
    readonly bodies: readonly Body[],
    private readonly rhythm: Rhythm,
    private readonly restS: number,
    private readonly setUpS: number,
    private readonly constants: Constants,
  ) {
    this.only = bodies.length === 1 && rhythm !== "in sync" ? (bodies[0] ?? null) : null;
  }

  get names(): readonly string[] {
    return this.bodies.map(({ athlete }) => athlete);
  }

  get done(): boolean {
    return this.inPart === 0;
  }

  /** A set in parts, all of one rep or more; after `most` reps no further one counts. */
  begin(parts: readonly number[], size: number, startS: number, most: number): void {
    this.parts = parts;
    this.size = size;
    this.part = 0;
    this.inPart = parts[0] ?? 0;
    this.most = most;
    this.atS = startS;
    this.restingUntilS = 0;
    this.reps = 0;
    if (this.misses.length > 0) this.misses = [];
    if (this.stretches.length > 0) this.stretches = [];
    for (const body of this.bodies) body.begin(startS);
  }

  /** As if the set had not begun. */
  back(): void {
    for (const body of this.bodies) body.back();
  }

  commit(): void {
    for (const body of this.bodies) body.atS = this.atS;
  }

  /** Goes on with the set until it is done or the time is up; a rep that would end later, or past `most`, does not count. */
  run(deadlineS: number): void {
    while (this.inPart > 0 && this.atS < deadlineS) {
      if (this.restingUntilS > this.atS) {
        this.waitTo(Math.min(this.restingUntilS, deadlineS));
        continue;
      }
      if (this.setsUp()) {
        this.setUp(deadlineS);
        continue;
      }
      if (this.alone(deadlineS)) continue;
      const seconds = this.secondsOfRep();
      if (!this.tries(seconds)) {
        if (!this.miss(seconds, deadlineS)) return;
        continue;
      }
      if (this.reps >= this.most || this.atS + seconds > deadlineS + together) return this.breakOff(deadlineS, seconds);
      for (const body of this.bodies) body.take();
      this.repEndsS[this.reps] = this.atS + seconds;
      this.countOff(1);
    }
  }

  /** Whether somebody takes up the movement again after a pause. */
  private setsUp(): boolean {
    if (this.setUpS <= 0) return false;
    if (this.only) return this.only.lastS < this.atS - together;
    for (const { lastS } of this.bodies) if (lastS < this.atS - together) return true;
    return false;
  }

  private setUp(deadlineS: number): void {
    const readyS = this.atS + this.setUpS;
    if (readyS >= deadlineS) return this.waitTo(deadlineS);
    this.push("wait", readyS, 0);
    for (const body of this.bodies) body.setUp();
    this.atS = readyS;
    this.atIt();
  }

  private atIt(): void {
    for (const body of this.bodies) body.lastS = this.atS;
  }

  /** Somebody alone does reps in a row; false where none is there, or where a partner must be waited for. */
  private alone(deadlineS: number): boolean {
    const body = this.only;
    if (!body) return false;
    const wanted = Math.min(this.inPart, this.most - this.reps);
    const done = repsInRow(body.pools, body.reserve, body.pace, wanted, this.atS, deadlineS + together, this.repEndsS, this.reps);
    if (done > 0) this.countOff(done);
    return done > 0;
  }

  /** Stands still: a hold was dropped, nothing counts. */
  pause(untilS: number): void {
    if (!this.done) this.waitTo(untilS);
  }

  /** The reserve left of a member, 0…1. */
  leftOf(athlete: string): number {
    const body = this.bodies.find((member) => member.athlete === athlete);
    return body ? left(body.pools, body.reserve) : 1;
  }

  /** Shortest rest in s after which a set in these parts has no miss and leaves a share of the reserve; Infinity if not even fresh. */
  waitFor(parts: readonly number[], toLeave: number): number {
    return waitUntil((restedS) => this.excess(parts, restedS, aimedAt - toLeave));
  }

  /**
   * How far past the limit, shifted by `over` of the capacity, some rest and then the parts would take a member, in
   * reps; 0 or less if nobody misses.
   */
  private excess(parts: readonly number[], restedS: number, over: number): number {
    let worst = Number.NEGATIVE_INFINITY;
    for (const body of this.bodies) body.stepAside(restedS);
    for (let part = 0; part < parts.length; part += 1) {
      if (part > 0) for (const body of this.bodies) recover(body.pools, body.reserve, this.restS);
      worst = Math.max(worst, this.excessOf(parts[part] ?? 0, over));
    }
    for (const body of this.bodies) body.comeBack();
    return worst;
  }

  private excessOf(reps: number, over: number): number {
    if (this.only) return peakOf(this.only.pools, this.only.reserve, this.only.pace, reps) - mostSpent(this.only.reserve, over);
    let worst = Number.NEGATIVE_INFINITY;
    for (let rep = 0; rep < reps; rep += 1) {
      const seconds = this.secondsOfRep();
      for (const { pools, reserve } of this.bodies) {
        work(pools, pools, reserve, seconds, this.tried);
        worst = Math.max(worst, spent(pools) - mostSpent(reserve, over));
      }
    }
    return worst;
  }

  /** Seconds of the next rep: the longest cycle among the members; in sync a counted rep takes, and spends, 1/(1−q) of one. */
  private secondsOfRep(): number {
    let seconds = 0;
    for (const { pools, reserve, pace } of this.bodies) seconds = Math.max(seconds, cycleOf(pools, reserve) * pace);
    if (this.rhythm !== "in sync") return seconds;
    seconds += this.constants["step cost"];
    let missStep = this.constants["step no-rep"];
    for (const { pools, reserve } of this.bodies) missStep *= 1 - left(pools, reserve);
    this.tried = 1 / ((1 - missStep) * (1 - this.lost));
    return seconds * this.tried;
  }

  /** Whether one more rep is possible for all; its pools stand in `next`. */
  private tries(seconds: number): boolean {
    for (const body of this.bodies) {
      work(body.pools, body.next, body.reserve, seconds, this.tried);
      if (!within(body.next, body.reserve)) return false;
    }
    return true;
  }

  /** A rep that is not there: its time and the cost of a miss are gone; then the wait for the next few. False: time is up. */
  private miss(seconds: number, deadlineS: number): boolean {
    const costS = seconds + this.constants["miss cost"];
    if (this.atS + costS > deadlineS) {
      this.breakOff(deadlineS, seconds);
      return false;
    }
    let wanted = Math.min(3, this.inPart);
    for (const body of this.bodies) {
      const { pools, next, reserve, athlete } = body;
      wanted = Math.min(wanted, Math.max(1, Math.floor(reserve.unbroken / 2)));
      work(pools, next, reserve, seconds, this.tried);
      if (within(next, reserve)) {
        body.take();
        recover(body.pools, reserve, this.constants["miss cost"]);
      } else {
        exhaust(pools, reserve);
        this.misses.push({ athlete, atS: this.atS, after: this.reps, of: this.size });
      }
    }
    this.spendTime(costS);
    this.restingUntilS = this.atS + this.waitFor([wanted], 0);
    return true;
  }

  /** Reps that count, the ends of which stand in the list. */
  private countOff(reps: number): void {
    this.reps += reps;
    const endS = this.repEndsS[this.reps - 1] ?? this.atS;
    this.push("work", endS, reps);
    this.atS = endS;
    this.atIt();
    this.inPart -= reps;
    if (this.inPart > 0) return;
    this.part += 1;
    this.inPart = this.parts[this.part] ?? 0;
    if (this.inPart > 0) this.restingUntilS = this.atS + this.restS;
  }

  /** Works on to the deadline without ending a rep; a try past the limit leaves the reserve at its limit. */
  private breakOff(deadlineS: number, seconds: number): void {
    const ran = deadlineS - this.atS;
    if (ran <= 0) return;
    for (const { pools, reserve } of this.bodies) {
      work(pools, pools, reserve, ran, this.tried * Math.min(1, ran / seconds));
      if (!within(pools, reserve)) exhaust(pools, reserve);
    }
    this.spendTime(ran);
  }

  /** Stands still inside the set, and recovers. */
  private waitTo(untilS: number): void {
    if (untilS <= this.atS) return;
    this.push("wait", untilS, 0);
    for (const { pools, reserve } of this.bodies) recover(pools, reserve, untilS - this.atS);
    this.atS = untilS;
  }

  /** Time of work in which no rep counts. */
  private spendTime(seconds: number): void {
    const endS = this.atS + seconds;
    this.push("work", endS, 0);
    this.atS = endS;
    this.atIt();
  }

  /** Adds to the last stretch where it goes on without a gap. */
  private push(activity: WorkStretch["activity"], endS: number, reps: number): void {
    if (!this.noting) return;
    const last = this.stretches.at(-1);
    if (last?.activity === activity && last.endS === this.atS) {
      last.endS = endS;
      last.reps += reps;
    } else if (endS > this.atS) this.stretches.push({ activity, startS: this.atS, endS, reps });
  }
}
