import type { Constants } from "../3-plan/assumptions.js";
import type { Rhythm } from "../3-plan/plan.js";
import { cycleOf, exhaust, left, type Pools, recover, type Reserve, shortest, work, within } from "./models/reserve.js";
import type { Miss } from "./timeline.js";

/** An athlete at one movement: the reserve, what is spent of it, and since when that is true. */
export interface Body {
  readonly athlete: string;
  readonly reserve: Reserve;
  pools: Pools;
  atS: number;
}

const together = 1e-9;

/** A stretch of a crew's time. */
export interface Stretch {
  readonly activity: "work" | "wait";
  readonly startS: number;
  endS: number;
  reps: number;
}

/** The athletes who share one rhythm, doing one set. Works on copies of their pools until `commit`. */
export class Crew {
  readonly repEndsS: number[] = [];
  readonly misses: Miss[] = [];
  readonly stretches: Stretch[] = [];
  private readonly members: { readonly body: Body; readonly reserve: Reserve; readonly pools: Pools }[];
  private readonly parts: number[];
  private readonly size: number;
  private restingUntilS = 0;
  atS: number;

  constructor(
    bodies: readonly Body[],
    private readonly rhythm: Rhythm,
    parts: readonly number[],
    private readonly restS: number,
    startS: number,
    private readonly constants: Constants,
    /** Reps after which no further one counts: the crew's part of a stage that ends. */
    private readonly most = Number.POSITIVE_INFINITY,
  ) {
    this.parts = parts.filter((reps) => reps > 0);
    this.size = parts.reduce((sum, reps) => sum + reps, 0);
    this.atS = startS;
    this.members = bodies.map((body) => {
      const pools = { ...body.pools };
      recover(pools, body.reserve, startS - body.atS);
      return { body, reserve: body.reserve, pools };
    });
  }

  get names(): readonly string[] {
    return this.members.map(({ body }) => body.athlete);
  }

  get done(): boolean {
    return this.parts.length === 0;
  }

  /** Goes on with the set until it is done or the time is up; a rep that would end later does not count. */
  run(deadlineS: number): void {
    while (!this.done && this.repEndsS.length < this.most) {
      if (this.restingUntilS > this.atS) {
        this.restTo(Math.min(this.restingUntilS, deadlineS));
        if (this.restingUntilS > this.atS) return;
      }
      const seconds = this.secondsOfRep();
      const rep = this.tried(seconds);
      if (!rep) {
        if (!this.miss(seconds, deadlineS)) return;
        continue;
      }
      if (this.atS + seconds > deadlineS + together) return this.breakOff(deadlineS, seconds);
      this.members.forEach(({ pools }, at) => Object.assign(pools, rep[at]));
      this.spendTime("work", seconds, 1);
      this.repEndsS.push(this.atS);
      this.countOff();
    }
    if (!this.done && this.atS < deadlineS) this.breakOff(deadlineS, this.secondsOfRep());
  }

  /** Stands still: a hold was dropped, nothing counts. */
  pause(untilS: number): void {
    if (this.done || untilS <= this.atS) return;
    this.push("wait", untilS, 0);
    this.restTo(untilS);
  }

  /** The least reserve left among the members, 0…1. */
  leftOf(athlete: string): number {
    const member = this.members.find(({ body }) => body.athlete === athlete);
    return member ? left(member.pools, member.reserve) : 1;
  }

  /** The whole set without a miss, begun now. */
  fits(): boolean {
    this.run(Number.POSITIVE_INFINITY);
    return this.misses.length === 0;
  }

  commit(): void {
    for (const { body, pools } of this.members) {
      body.pools = pools;
      body.atS = this.atS;
    }
  }

  /** Seconds of the next rep: the longest cycle among the members; in sync a counted rep takes 1/(1−q) of its time. */
  private secondsOfRep(): number {
    let seconds = 0;
    for (const { pools, reserve } of this.members) seconds = Math.max(seconds, cycleOf(pools, reserve));
    if (this.rhythm !== "in sync") return seconds;
    seconds += this.constants["step cost"];
    let missStep = this.constants["step no-rep"];
    for (const { pools, reserve } of this.members) missStep *= 1 - left(pools, reserve);
    return seconds / (1 - missStep);
  }

  /** The pools after one more rep; null if it is not possible for all. */
  private tried(seconds: number): readonly Pools[] | null {
    const after: Pools[] = [];
    for (const { pools, reserve } of this.members) {
      const next = { fast: pools.fast, slow: pools.slow };
      work(next, reserve, seconds);
      if (!within(next, reserve)) return null;
      after.push(next);
    }
    return after;
  }

  /** A rep that is not there: its time and the cost of a miss are gone; then the wait for the next few. False: time is up. */
  private miss(seconds: number, deadlineS: number): boolean {
    const costS = seconds + this.constants["miss cost"];
    if (this.atS + costS > deadlineS) {
      this.breakOff(deadlineS, seconds);
      return false;
    }
    for (const { body, pools, reserve } of this.members) {
      const next = { ...pools };
      work(next, reserve, seconds);
      if (within(next, reserve)) {
        Object.assign(pools, next);
        recover(pools, reserve, this.constants["miss cost"]);
      } else {
        exhaust(pools, reserve);
        this.misses.push({ athlete: body.athlete, atS: this.atS, after: this.repEndsS.length, of: this.size });
      }
    }
    this.spendTime("work", costS, 0);
    const wanted = Math.min(3, this.parts[0] ?? 1, ...this.members.map(({ reserve }) => reserve.unbroken));
    const waitS = shortest((rested) => this.canDo(wanted, rested));
    const until = Math.min(this.atS + waitS, deadlineS);
    this.push("wait", until, 0);
    this.restTo(until);
    return this.atS < deadlineS;
  }

  private canDo(reps: number, afterS: number): boolean {
    const bodies = this.members.map(({ body, reserve, pools }) => ({ ...body, reserve, pools: { ...pools }, atS: 0 }));
    return new Crew(bodies, this.rhythm, [reps], 0, afterS, this.constants).fitsAtOnce();
  }

  /** Like `fits`, but stops at the first rep that is not there. */
  private fitsAtOnce(): boolean {
    while (!this.done) {
      const rep = this.tried(this.secondsOfRep());
      if (!rep) return false;
      this.members.forEach(({ pools }, at) => Object.assign(pools, rep[at]));
      this.countOff();
    }
    return true;
  }

  private countOff(): void {
    this.parts[0] = (this.parts[0] ?? 1) - 1;
    if (this.parts[0] > 0) return;
    this.parts.shift();
    if (!this.done) this.restingUntilS = this.atS + this.restS;
  }

  /** Works on to the deadline without ending a rep; a try past the limit leaves the reserve at its limit. */
  private breakOff(deadlineS: number, seconds: number): void {
    const ran = deadlineS - this.atS;
    if (ran <= 0) return;
    for (const { pools, reserve } of this.members) {
      work(pools, reserve, ran, Math.min(1, ran / seconds));
      if (!within(pools, reserve)) exhaust(pools, reserve);
    }
    this.spendTime("work", ran, 0);
  }

  private restTo(untilS: number): void {
    for (const { pools, reserve } of this.members) recover(pools, reserve, untilS - this.atS);
    this.atS = untilS;
  }

  private spendTime(activity: Stretch["activity"], seconds: number, reps: number): void {
    const endS = this.atS + seconds;
    this.push(activity, endS, reps);
    this.atS = endS;
  }

  /** Adds to the last stretch where it goes on without a gap. */
  private push(activity: Stretch["activity"], endS: number, reps: number): void {
    const last = this.stretches.at(-1);
    if (last?.activity === activity && last.endS === this.atS) {
      last.endS = endS;
      last.reps += reps;
    } else if (endS > this.atS) this.stretches.push({ activity, startS: this.atS, endS, reps });
  }
}
