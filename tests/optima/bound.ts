/**
 * What no way to go on can better. Over the time that is left at most, T, a spent rep fades by e^(−ρT) and no more, so an
 * athlete's jth rep from here on takes at least the cycle at what is spent now and by j reps, all faded by T; so faded
 * they must stay within the capacity: of the poor day, on which nobody may miss; against a deadline of the expected one,
 * for a rep that the deadline cuts is no miss. The quickest reps of all are done first. A cast that does not work now
 * costs a handover, and each further of its longest sets (`longest`, fresh) another break.
 */
import type { Body } from "../../src/4-timeline/body.js";
import type { Day } from "./day.js";

/** Reps that share a rhythm, or one athlete of a turn of two at their own pace. */
interface Source {
  readonly cast: number;
  readonly expected: readonly Body[];
  readonly poor: readonly Body[];
  /** Seconds of the clock that one second of a rep takes: half where two work side by side. */
  readonly part: number;
  /** Reps in a row, fresh, on the day that limits them. */
  readonly longest: number;
  done: number;
  most: number;
  charge: number;
  readonly spent: number[];
  readonly more: number[];
}

/** The least break between two sets of one cast: the shortest rest there is. */
const leastBreakS = 1;

export class Bound {
  private readonly sources: Source[] = [];
  private readonly slower: number;

  constructor(
    private readonly expected: Day,
    private readonly poor: Day,
    casts: readonly { readonly turn: number; readonly shared: boolean; readonly longest: number }[],
    private readonly costs: { readonly stepS: number; readonly handoverS: number; readonly deadlineS: number; readonly holds: boolean },
  ) {
    casts.forEach(({ turn, shared, longest }, cast) => {
      const [fine, bad] = [expected.bodiesOf(turn), poor.bodiesOf(turn)];
      const groups = shared ? [fine.map((_, at) => at)] : fine.map((_, at) => [at]);
      for (const group of groups) {
        const bodies = (all: readonly Body[]): readonly Body[] => all.filter((_, at) => group.includes(at));
        this.sources.push({
          cast,
          expected: bodies(fine),
          poor: bodies(bad),
          part: 1 / groups.length,
          longest: longest * groups.length,
          done: 0,
          most: 0,
          charge: 0,
          spent: [],
          more: [],
        });
      }
    });
    // A poor day's reps are slower by the fade at most, unless a hold fails.
    this.slower = costs.holds
      ? Number.POSITIVE_INFINITY
      : 1 + Math.max(...this.sources.flatMap((source) => source.poor.map(({ reserve }) => reserve.fade)));
  }

  /** Seconds of the quickest rep of all, fresh. */
  get quickestS(): number {
    return Math.min(
      ...this.sources.map(
        ({ expected, part }) =>
          part * (Math.max(...expected.map(({ reserve }) => reserve.cycleS)) + (expected.length > 1 ? this.costs.stepS : 0)),
      ),
    );
  }

  /** Least seconds in which `units` reps more are done, within `leftS`; Infinity where they cannot be. */
  leastS(units: number, leftS: number, cast: number | null): number {
    if (leftS <= 0) return Number.POSITIVE_INFINITY;
    this.prepare(units, leftS, true, cast);
    let seconds = 0;
    for (let rep = 0; rep < units && seconds < leftS; rep += 1) seconds += this.quickest();
    return seconds;
  }

  /** Most reps until the deadline. */
  mostReps(cast: number | null): number {
    const leftS = this.costs.deadlineS - this.expected.atS;
    this.prepare(1000, leftS, false, cast);
    let reps = 0;
    for (let seconds = this.quickest(); seconds <= leftS + 1e-6; seconds += this.quickest()) reps += 1;
    return reps;
  }

  private prepare(units: number, leftS: number, poor: boolean, cast: number | null): void {
    for (const source of this.sources) {
      source.done = 0;
      source.most = units;
      source.expected.forEach((body, at) => {
        source.spent[at] = fadedBy(body, this.expected.atS + leftS - body.atS) / body.reserve.capacity;
        source.more[at] = repFaded(body, leftS) / body.reserve.capacity;
      });
      const [atS, forS] = poor ? [this.poor.atS, this.slower * leftS] : [this.expected.atS, leftS];
      for (const body of poor ? source.poor : source.expected) {
        const room = body.reserve.capacity * (1 + 1e-9) - fadedBy(body, atS + forS - body.atS);
        source.most = Math.max(0, Math.min(source.most, Math.floor(room / repFaded(body, forS) + 1e-9)));
      }
      const most = source.part === 1 ? source.most : units;
      const { longest } = source;
      source.charge =
        cast === null || source.cast === cast || most === 0
          ? 0
          : most <= longest
            ? this.costs.handoverS / most
            : (this.costs.handoverS - leastBreakS) / most + leastBreakS / longest;
    }
  }

  /** Takes the quickest rep there still is. */
  private quickest(): number {
    let [least, chosen]: [number, Source | null] = [Number.POSITIVE_INFINITY, null];
    for (const source of this.sources) {
      if (source.done >= source.most) continue;
      let seconds = 0;
      source.expected.forEach(({ reserve }, at) => {
        const used = (source.spent[at] ?? 0) + source.done * (source.more[at] ?? 0);
        seconds = Math.max(seconds, reserve.cycleS * (1 + reserve.fade * used * used));
      });
      seconds = (seconds + (source.expected.length > 1 ? this.costs.stepS : 0)) * source.part + source.charge;
      if (seconds < least) [least, chosen] = [seconds, source];
    }
    if (chosen) chosen.done += 1;
    return least;
  }
}

function fadedBy({ pools, reserve }: Body, seconds: number): number {
  return pools.fast * Math.exp(-reserve.fastRate * seconds) + pools.slow * Math.exp(-reserve.slowRate * seconds);
}

/** A rep's effort, faded. */
function repFaded({ reserve }: Body, seconds: number): number {
  return reserve.fastShare * Math.exp(-reserve.fastRate * seconds) + (1 - reserve.fastShare) * Math.exp(-reserve.slowRate * seconds);
}
