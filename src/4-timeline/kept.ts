import type { Line } from "../3-plan/ast.js";
import type { ResolvedPlan } from "../3-plan/plan.js";
import type { Entry, World } from "../3-plan/world.js";
import type { Abilities } from "./ability.js";
import type { Days } from "./spread.js";
import type { Timeline } from "./timeline.js";

/** A plan with what became of it in time, worked out when it is first asked for. */
export class PlanResult {
  private made: Timeline | null;
  private make: (() => Timeline) | null;

  /** `timeline`: the plan's, or how it comes about. */
  constructor(
    readonly entry: Entry,
    readonly resolved: ResolvedPlan,
    timeline: Timeline | null | (() => Timeline),
  ) {
    this.made = typeof timeline === "function" ? null : timeline;
    this.make = typeof timeline === "function" ? timeline : null;
  }

  /** Null for a plan that cannot be timed. */
  get timeline(): Timeline | null {
    if (this.make) this.made = this.make();
    this.make = null;
    return this.made;
  }

  /** The timeline if somebody has asked for it. */
  get known(): Timeline | null {
    return this.made;
  }
}

/** A plan with all that it was made from. */
export interface KeptPlan {
  readonly result: PlanResult;
  /** All that its timeline depends on, as one string; null without one. */
  readonly key: string | null;
  /** What each name that its formulas use stood for. */
  readonly uses: ReadonlyMap<string, string>;
}

/**
 * What one evaluation leaves for the next. What a result was made from stands with it: declarations, the abilities that come of
 * them, a plan's own text, the values its formulas used. Where all of that is the same, the result is taken over.
 */
export interface Kept {
  readonly declared: readonly Line[];
  readonly world: World;
  readonly abilities: Abilities;
  /** By a block's reading: what was asked for, and what nobody has asked for since. */
  readonly plans: () => ReadonlyMap<Entry["read"], KeptPlan>;
  readonly drawn: Drawn;
}

/** What was drawn for timelines. A timeline's days stand as long as it does, whatever evaluation asks for them. */
export class Drawn {
  private readonly days = new WeakMap<Timeline, Days>();
  private readonly numbers = new WeakMap<Timeline, Map<string, readonly number[]>>();

  /** The days that somebody has asked for. */
  knownDays(timeline: Timeline | null | undefined): Days | null {
    return (timeline && this.days.get(timeline)) ?? null;
  }

  daysOf(timeline: Timeline, draw: () => Days): Days {
    const days = this.days.get(timeline) ?? draw();
    this.days.set(timeline, days);
    return days;
  }

  /** Numbers that hang on a timeline and a key of their own. */
  numbersOf(timeline: Timeline, key: string, make: () => readonly number[]): readonly number[] {
    const known = this.numbers.get(timeline) ?? new Map<string, readonly number[]>();
    this.numbers.set(timeline, known);
    const numbers = known.get(key) ?? make();
    known.set(key, numbers);
    return numbers;
  }
}
