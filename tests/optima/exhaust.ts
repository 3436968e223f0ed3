/**
 * The best of a lane's plans: branch and bound over its turns, each day going on from where the last turn left it. In the
 * first pass any line may come next; then the pass closes with a rest, and its lines come again with sizes that do not
 * rise, four of them at most. What the clock cannot tell apart is tried once: two sets of a cast in a row are one set, and
 * a repeat without a rest is the same as its lines written out, as long as they fit into one pass (`writtenOut`).
 */
import type { Constants } from "../../src/3-plan/assumptions.js";
import type { PlanSpec } from "../../src/3-plan/plan.js";
import type { Abilities } from "../../src/4-timeline/ability.js";
import { poorDay } from "../../src/4-timeline/draw.js";
import { peakOf, type Reserve } from "../../src/4-timeline/models/reserve.js";
import { Bound } from "./bound.js";
import type { Lane, Option, PlanLine } from "./choices.js";
import { Day } from "./day.js";

const longestRestS = 60;
const mostSizes = 4;
/** Of so many plans that were run to their end the clock checks one. */
const sampledOf = 997;

export interface Problem {
  readonly plan: PlanSpec;
  readonly abilities: Abilities;
  readonly constants: Constants;
}

/** A plan of a lane, run to its end. */
export interface Leaf {
  readonly lines: readonly PlanLine[];
  readonly restS: number;
  /** Seconds, or reps below nought: the less the better. */
  readonly cost: number;
  readonly lastCast: string;
}

/** What the stages to come cost, by who works last; and at the least. */
export interface After {
  readonly of: (lastCast: string) => number;
  readonly least: number;
}

interface Line {
  readonly option: number;
  readonly sizes: number[];
}

export class Exhaustion {
  best: Leaf | null = null;
  /** Turns that were run, and plans that were run to their end. */
  turns = 0;
  plans = 0;
  readonly samples: Leaf[] = [];
  private bestCost = 0;
  private depth = 0;
  private readonly expected: Day;
  private readonly poor: Day;
  private readonly bound: Bound;
  private readonly target: number | null;
  private readonly lines: Line[] = [];
  /** Reps in a row of each of a cast, fresh, on a poor day; in these events no hold lasts so long that it drops before. */
  private readonly alone: ReadonlyMap<string, readonly number[]>;
  /** A round's least seconds and its reps; nothing in an event of sets. */
  private readonly round: { readonly leastS: number; readonly reps: number } | null;

  constructor(
    private readonly lane: Lane,
    { plan, abilities, constants }: Problem,
    private readonly after: After,
    firstCast: string | null,
  ) {
    const { event } = plan;
    const stage = event.stages[lane.stage];
    const turns = lane.options.map(({ turn }) => turn);
    const day = (poor: boolean, target: number | null, deadlineS: number): Day =>
      new Day(plan, turns, abilities, constants, poor ? poorDay : null, target, deadlineS);
    this.target = event.score === "time" ? (stage?.target ?? null) : null;
    this.expected = day(false, this.target, lane.deadlineS);
    this.poor = day(true, this.target, lane.deadlineS);
    for (const one of [this.expected, this.poor]) one.begin(lane.startS, firstCast);
    this.poor.afterMissNoWait();
    const first = lane.casts.map((cast) => lane.options.findIndex((option) => option.cast === cast && !option.broken));
    const alone = (turn: number, size: number, poor: boolean): Day => {
      const one = day(poor, null, Number.POSITIVE_INFINITY);
      one.turn(turn, size);
      return one;
    };
    const longest = (turn: number): number => {
      let size = 1;
      while (alone(turn, size + 1, this.target !== null).misses === 0) size += 1;
      return size;
    };
    this.alone = new Map(first.map((turn, at) => [lane.casts[at] ?? "", this.poor.bodiesOf(turn).map(({ reserve }) => inARow(reserve))]));
    const fresh = first.map((turn) => alone(turn, 1, false));
    this.round = stage?.rounds
      ? { leastS: Math.min(...fresh.map(({ atS }) => atS)), reps: Math.max(...fresh.map(({ reps }) => reps)) }
      : null;
    const holds = (stage?.hold?.count ?? 0) > 0;
    // Where one waits for another, or for a hold on a poor day, more reps may follow one another than in a fresh set.
    const casts = first
      .map((turn) => ({ turn, shared: lane.options[turn]?.merges ?? true }))
      .map((one) => ({ ...one, longest: one.shared && !holds ? longest(one.turn) : Number.POSITIVE_INFINITY }));
    this.bound = new Bound(this.expected, this.poor, this.round ? [] : casts, {
      stepS: stage?.items[0]?.how === "in sync" ? constants["step cost"] : 0,
      handoverS: event.handoverS ?? constants.handover,
      deadlineS: lane.deadlineS,
      holds,
    });
  }

  /** Looks through all that may cost less. */
  run(lessThan: number): void {
    this.bestCost = lessThan;
    if (!this.hopeless(null)) this.open(null);
  }

  /** The least that any plan can cost, roughly. */
  get atLeast(): number {
    if (this.target === null) return -this.mostReps(null);
    return this.after.least + this.target * (this.round?.leastS ?? this.bound.quickestS);
  }

  /** The first pass: one more line, or the pass closes. */
  private open(before: Option | null): void {
    const { lane, lines } = this;
    const count = lines.length;
    const missing = lane.casts.filter((cast) => !lines.some(({ option }) => lane.options[option]?.cast === cast));
    let [longest, cutAt] = [0, 0];
    lane.options.forEach((option, at) => {
      if (count + 1 + missing.filter((cast) => cast !== option.cast).length > lane.mostLines) return;
      const [part = 0] = option.turn.works[0]?.broken?.parts ?? [];
      if (option.broken && (part > longest || part >= cutAt)) return;
      // A set that goes on where the last one ended is part of that; how long it could be says which broken sets could.
      const goesOn = option === before && option.merges && !option.broken;
      const line: Line = { option: at, sizes: [] };
      if (!goesOn) lines.push(line);
      const ran = this.sets(
        line,
        option.size ?? 1,
        option.size ?? Number.POSITIVE_INFINITY,
        lines,
        0,
        goesOn ? null : () => this.open(option),
      );
      if (!goesOn) lines.pop();
      if (!option.broken) ({ longest, cutAt } = ran);
    });
    if (count === 0 || missing.length > 0) return;
    // Where the last line goes on into the first, a repeat without a rest is not the same as its lines written out.
    const wraps = count > 1 && before !== null && before.merges && !before.broken && lane.options[lines[0]?.option ?? -1] === before;
    for (let restS = wraps ? 0 : 1; restS <= longestRestS; restS += 1) this.rested(restS, before, () => this.again(count, lines, restS));
    if (count === lane.mostLines) for (let length = lane.casts.length; length <= count; length += 1) this.writtenOut(length);
  }

  /** All the lines that fit are written out: they may be those of a shorter repeat without a rest, which then goes on. */
  private writtenOut(length: number): void {
    const { lines, lane } = this;
    const folded = lines.slice(0, length).map(({ option, sizes }) => ({ option, sizes: [...sizes] }));
    if (lane.casts.some((cast) => !folded.some(({ option }) => lane.options[option]?.cast === cast))) return;
    for (let at = length; at < lines.length; at += 1) {
      const [line, next] = [folded[at % length], lines[at]];
      const size = next?.sizes[0] ?? 0;
      if (!line || line.option !== next?.option || size < this.least(line) || size > most(line)) return;
      line.sizes.push(size);
    }
    this.again(lines.length, folded, 0);
  }

  /** Passes after the first: the lines are as they are, their sizes fall or stay. */
  private again(count: number, lines: readonly Line[], restS: number): void {
    const line = lines[count % lines.length];
    const option = this.lane.options[line?.option ?? -1];
    if (!line || !option) return;
    const next = (): void => this.again(count + 1, lines, restS);
    const ends = restS > 0 && (count + 1) % lines.length === 0;
    this.sets(line, this.least(line), most(line), lines, restS, ends ? () => this.rested(restS, option, next) : next);
  }

  private rested(restS: number, option: Option | null, then: () => void): void {
    this.save();
    this.expected.rest(restS);
    this.poor.rest(restS);
    if (this.expected.over && this.poor.over) this.end(this.lines, restS);
    else if (!this.hopeless(option)) then();
    this.restore();
  }

  /** Every size of a line's next set, and what may follow; how long a set can be, and from where on the end cuts it. */
  private sets(
    line: Line,
    least: number,
    most: number,
    lines: readonly Line[],
    restS: number,
    then: (() => void) | null,
  ): { readonly longest: number; readonly cutAt: number } {
    const { expected, poor } = this;
    const option = this.lane.options[line.option];
    const alone = this.alone.get(option?.cast ?? "") ?? [];
    const left = option && !option.merges && !this.round ? (this.target ?? Number.POSITIVE_INFINITY) - expected.units : null;
    let [longest, cutAt] = [left === null ? 0 : Math.max(...alone), Number.POSITIVE_INFINITY];
    for (let size = least; size <= Math.min(most, left ?? most) && cutAt > size; size += 1) {
      this.save();
      poor.turn(line.option, size);
      const misses = poor.misses > 0;
      if (!misses) expected.turn(line.option, size);
      this.turns += 1;
      const fails = misses || expected.drops > 0;
      if (!fails) {
        longest = Math.max(longest, size);
        if (expected.cut && poor.cut) cutAt = size;
        if (then) {
          line.sizes.push(size);
          if (expected.over && poor.over) this.end(lines, restS);
          else if (!this.hopeless(option ?? null)) then();
          line.sizes.pop();
        }
      }
      const goesWrong = misses && poor.drops === 0 && left !== null && left > sumOf(alone);
      this.restore();
      // One rhythm fails in any larger set at the same rep; two at their own pace may be at the end before that, together.
      if (fails && (left === null || goesWrong)) break;
    }
    return { longest, cutAt };
  }

  private end(lines: readonly Line[], restS: number): void {
    this.plans += 1;
    const { expected, target, bestCost } = this;
    if (target !== null && expected.units < target) return;
    const cost = target === null ? -expected.reps : expected.atS - this.lane.startS + this.after.of(expected.lastCast ?? "");
    const sampled = this.plans % sampledOf === 0;
    if (cost >= bestCost && !sampled) return;
    const { options, casts } = this.lane;
    const written = lines.flatMap(({ option, sizes }): readonly PlanLine[] => {
      const chosen = options[option];
      return chosen ? [{ option: chosen, sizes: sizes.slice(0, mostSizes) }] : [];
    });
    // Those who never came to work stand at the end.
    const absent = casts.flatMap((cast) =>
      written.some(({ option }) => option.cast === cast) ? [] : options.filter((option) => option.cast === cast).slice(0, 1),
    );
    const leaf: Leaf = {
      lines: [...written, ...absent.map((option) => ({ option, sizes: [1] }))],
      restS,
      cost,
      lastCast: expected.lastCast ?? "",
    };
    if (sampled) this.samples.push(leaf);
    if (cost < bestCost) [this.best, this.bestCost] = [leaf, cost];
  }

  /** Whether nothing that goes on from here, or from the last turn's cast, costs less than the best. */
  private hopeless(option: Option | null): boolean {
    const { expected, target, bestCost, lane, after, round } = this;
    const cast = option ? lane.casts.indexOf(option.cast) : null;
    if (target === null) return -expected.reps - this.mostReps(cast) >= bestCost;
    const left = target - expected.units;
    const leftS = bestCost - after.least - (expected.atS - lane.startS);
    return (round ? left * round.leastS : this.bound.leastS(left, leftS, cast)) >= leftS - 1e-9;
  }

  private mostReps(cast: number | null): number {
    const leftS = this.lane.deadlineS - this.expected.atS;
    return this.round ? Math.ceil(leftS / this.round.leastS) * this.round.reps : this.bound.mostReps(cast);
  }

  private least({ option, sizes }: Line): number {
    return sizes.length >= mostSizes || this.lane.options[option]?.size != null ? (sizes.at(-1) ?? 1) : 1;
  }

  private save(): void {
    this.expected.save(this.depth);
    this.poor.save(this.depth);
    this.depth += 1;
  }

  private restore(): void {
    this.depth -= 1;
    this.expected.restore(this.depth);
    this.poor.restore(this.depth);
  }
}

function inARow(reserve: Reserve): number {
  let reps = 0;
  while (peakOf({ fast: 0, slow: 0 }, reserve, 1, reps + 1) <= reserve.capacity * (1 + 1e-9)) reps += 1;
  return reps;
}

function sumOf(numbers: readonly number[]): number {
  return numbers.reduce((sum, one) => sum + one, 0);
}

/** A ladder goes down, and its last size stays. */
function most({ sizes }: Line): number {
  return sizes.at(-1) ?? 1;
}
