import { subjectNumber } from "./draw.js";
import type { Hold } from "./models/hold.js";
import { type Pools, recover, type Reserve } from "./models/reserve.js";

/** An athlete at one movement: the reserve, what is spent of it, and since when that is true. */
export class Body {
  readonly reserve: { -readonly [Part in keyof Reserve]: Reserve[Part] };
  pools: Pools = { fast: 0, slow: 0 };
  /** The pools after a rep that is only tried. */
  next: Pools = { fast: 0, slow: 0 };
  atS = 0;
  /** Of the cycle time, in the turn under way; 1 is as tested. */
  pace = 1;
  /** What work here costs the athlete's other bodies and grips. */
  costs: readonly Cost[] = [];
  readonly number: number;
  /** When the athlete last did this movement; Infinity: not yet. A number at every moment: this is written at every rep. */
  lastS = Number.POSITIVE_INFINITY;
  private fastAfterSetUp = 1;
  private slowAfterSetUp = 1;
  private aside: Pools = { fast: 0, slow: 0 };
  private readonly begun = { fast: 0, slow: 0, atS: 0, lastS: Number.POSITIVE_INFINITY };

  constructor(
    /** Athlete, movement and load as one string. */
    readonly key: string,
    readonly athlete: string,
    /** The athlete's place in the team. */
    readonly place: number,
    readonly subject: string,
    private readonly tested: Reserve,
    /** As the athlete's ability has it. */
    private readonly recovering: ((factor: number) => Reserve) | null,
    /** Seconds it takes to take the movement up again. */
    private readonly setUpS: number,
  ) {
    this.number = subjectNumber(subject);
    this.reserve = { ...tested };
  }

  /** Takes the movement up again: what comes back in those seconds is the same each time, and worked out once a run. */
  setUp(): void {
    this.pools.fast *= this.fastAfterSetUp;
    this.pools.slow *= this.slowAfterSetUp;
  }

  /** Whether nobody tested how fast the athlete recovers here. */
  get untested(): boolean {
    return this.recovering !== null;
  }

  /** Fresh, with the capacity, the cycle time and, where nobody tested it, the recovery of the day as factors. */
  reset(capacity: number, cycle: number, recovery: number): void {
    const day = recovery !== 1 && this.recovering ? this.recovering(recovery) : this.tested;
    this.reserve.capacity = day.capacity * capacity;
    this.reserve.fastRate = day.fastRate;
    this.reserve.slowRate = day.slowRate;
    this.reserve.cycleS = this.tested.cycleS * cycle;
    this.fastAfterSetUp = Math.exp(-day.fastRate * this.setUpS);
    this.slowAfterSetUp = Math.exp(-day.slowRate * this.setUpS);
    this.put(0, 0, 0);
    this.lastS = Number.POSITIVE_INFINITY;
    this.pace = 1;
  }

  /** Rests until `startS`; `back` returns to the moment before. */
  begin(startS: number): void {
    const { begun } = this;
    begun.fast = this.pools.fast;
    begun.slow = this.pools.slow;
    begun.atS = this.atS;
    begun.lastS = this.lastS;
    recover(this.pools, this.reserve, startS - this.atS);
    this.atS = Math.max(startS, this.atS);
  }

  back(): void {
    this.backTo(this.begun);
  }

  mark(): BodyMark {
    return { fast: this.pools.fast, slow: this.pools.slow, atS: this.atS, lastS: this.lastS };
  }

  backTo({ fast, slow, atS, lastS }: BodyMark): void {
    this.put(fast, slow, atS);
    this.lastS = lastS;
  }

  put(fast: number, slow: number, atS: number): void {
    this.pools.fast = fast;
    this.pools.slow = slow;
    this.atS = atS;
  }

  /** Takes the rep that was tried. */
  take(): void {
    const { pools } = this;
    this.pools = this.next;
    this.next = pools;
  }

  /** What follows is a trial, after some rest, until `comeBack`. */
  stepAside(restedS: number): void {
    const { aside } = this;
    aside.fast = this.pools.fast;
    aside.slow = this.pools.slow;
    this.aside = this.pools;
    this.pools = aside;
    recover(aside, this.reserve, restedS);
  }

  comeBack(): void {
    const { pools } = this;
    this.pools = this.aside;
    this.aside = pools;
  }
}

/** Where a body stood. */
export interface BodyMark extends Readonly<Pools> {
  readonly atS: number;
  readonly lastS: number;
}

/** What spending the whole of one reserve costs another of the same athlete: κ × overlap of what both ask of the body. */
export interface Cost {
  readonly to: Body | Grip;
  readonly share: number;
}

/** An athlete at one hold: how tired, and since when that is true. */
export interface Grip {
  /** Athlete and hold as one string. */
  readonly key: string;
  readonly athlete: string;
  readonly place: number;
  readonly subject: string;
  readonly number: number;
  /** Seconds to failure, as tested. */
  readonly testedS: number;
  costs: readonly Cost[];
  hold: Hold;
  tired: number;
  atS: number;
}
