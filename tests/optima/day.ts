/**
 * A day that goes turn by turn and can be put back: the clock's own athletes, sets and holds (4-timeline), with the
 * clock's rules between turns written down again for what these events need. The test asks the clock itself whether both
 * agree.
 */
import type { Constants } from "../../src/3-plan/assumptions.js";
import type { PlanSpec, Turn } from "../../src/3-plan/plan.js";
import type { Abilities } from "../../src/4-timeline/ability.js";
import type { Body } from "../../src/4-timeline/body.js";
import type { Chance } from "../../src/4-timeline/draw.js";
import { afterHolding } from "../../src/4-timeline/models/hold.js";
import { Ready } from "../../src/4-timeline/ready.js";
import type { ReadyTurn } from "../../src/4-timeline/turn.js";

const hair = 1e-9;

export class Day {
  atS = 0;
  /** What a target counts: reps, or rounds. */
  units = 0;
  reps = 0;
  misses = 0;
  drops = 0;
  /** The last turn was ended by the target or the deadline: a larger set would have been the same. */
  cut = false;
  /** Who worked and held in the last turn. */
  lastCast: string | null = null;
  private lastHolders: readonly string[] = [];
  private readonly ready: Ready;
  private readonly turns: readonly ReadyTurn[];
  private readonly handoverS: number;
  private readonly numbers: number[][] = [];
  private readonly casts: { cast: string | null; holders: readonly string[] }[] = [];

  constructor(
    plan: PlanSpec,
    turns: readonly Turn[],
    abilities: Abilities,
    constants: Constants,
    form: Chance | null,
    private readonly target: number | null,
    private readonly deadlineS: number,
  ) {
    this.ready = new Ready({ ...plan, steps: turns }, abilities, constants);
    this.ready.reset(form, false);
    this.turns = turns.flatMap((turn) => this.ready.turns.get(turn) ?? []);
    this.handoverS = plan.event.handoverS ?? constants.handover;
    if ([...this.ready.bodies, ...this.ready.grips].some(({ costs }) => costs.length > 0))
      throw new Error("what one movement costs another is not exhausted here");
  }

  get over(): boolean {
    return this.atS >= this.deadlineS - hair || (this.target !== null && this.units >= this.target);
  }

  begin(atS: number, lastCast: string | null): void {
    this.atS = atS;
    this.lastCast = lastCast;
  }

  /** What comes after a miss does not matter where no miss may be: no wait is worked out. */
  afterMissNoWait(): void {
    for (const { reserve } of this.ready.bodies) reserve.unbroken = 0;
  }

  bodiesOf(turn: number): readonly Body[] {
    return this.turns[turn]?.sets[0]?.bodies ?? [];
  }

  rest(seconds: number): void {
    this.atS = Math.min(this.deadlineS, this.atS + seconds);
  }

  turn(at: number, size: number): void {
    const next = this.turns[at];
    if (!next || this.over) return;
    const startS = Math.min(this.deadlineS, this.atS + (this.lastCast !== null && this.lastCast !== next.cast ? this.handoverS : 0));
    for (const grip of next.grips) {
      if (!this.lastHolders.includes(grip.athlete) || grip.atS !== this.atS) continue;
      grip.tired = afterHolding(grip.tired, grip.hold, startS - this.atS);
      grip.atS = startS;
    }
    this.atS = startS;
    this.lastCast = next.cast;
    this.lastHolders = next.turn.holders;
    this.cut = true;
    if (startS >= this.deadlineS - hair) return;
    const rounds = next.turn.rounds !== null;
    for (const set of next.sets) {
      set.run(
        size - 1,
        this.atS,
        this.deadlineS,
        rounds || this.target === null ? Number.POSITIVE_INFINITY : this.target - this.units,
        false,
      );
      this.atS = set.endS;
      this.reps += set.reps;
      if (!rounds) this.units += set.reps;
      for (const crew of set.crews) this.misses += crew.misses.length;
      this.drops += set.drops.length;
      // Of two at their own pace the quicker may have done all of a set that is cut: a larger one shares the work otherwise.
      if (!set.done) {
        this.cut = set.crews.every(({ done }) => !done);
        return;
      }
    }
    if (rounds) this.units += 1;
    this.cut = this.over && next.sets.every(({ crews }) => crews.length === 1);
  }

  save(depth: number): void {
    const into = (this.numbers[depth] ??= []);
    let at = 0;
    for (const value of [this.atS, this.units, this.reps, this.misses, this.drops]) into[at++] = value;
    for (const { pools, atS, lastS } of this.ready.bodies) {
      into[at++] = pools.fast;
      into[at++] = pools.slow;
      into[at++] = atS;
      into[at++] = lastS;
    }
    for (const { tired, atS } of this.ready.grips) {
      into[at++] = tired;
      into[at++] = atS;
    }
    this.casts[depth] = { cast: this.lastCast, holders: this.lastHolders };
  }

  restore(depth: number): void {
    const from = this.numbers[depth] ?? [];
    let at = 0;
    const next = (): number => from[at++] ?? 0;
    this.atS = next();
    this.units = next();
    this.reps = next();
    this.misses = next();
    this.drops = next();
    for (const body of this.ready.bodies) {
      body.put(next(), next(), next());
      body.lastS = next();
    }
    for (const grip of this.ready.grips) {
      grip.tired = next();
      grip.atS = next();
    }
    ({ cast: this.lastCast, holders: this.lastHolders } = this.casts[depth] ?? { cast: null, holders: [] });
  }
}
