/**
 * The order of a week's sessions: each to one of its hours, so that least is given away. What a session takes from a later
 * one falls with the time between, part by part of the body, and adds up; so an order's cost is a sum over pairs, and a
 * part of an order tells how little the rest can cost. All orders are tried but those that cannot be better.
 */
import { faultsAmong, type Placed } from "../5-findings/placing.js";
import type { WeekSpec } from "../3-plan/week.js";

export interface Hour {
  readonly date: string;
  readonly time: string;
  readonly startS: number;
}

/** A session to be placed. */
export interface Try {
  readonly session: Placed["session"];
  readonly weight: number;
  readonly lastsS: number;
  readonly hours: readonly Hour[];
}

export interface OrderProblem extends Pick<WeekSpec, "mostADay" | "gapS"> {
  readonly tries: readonly Try[];
  /** `takes[from][to]`: by part of the body, the share of its score that `to` gives away where it begins the moment `from` ends. */
  readonly takes: readonly (readonly (readonly number[])[])[];
  /** By part, in s. */
  readonly halfLivesS: readonly number[];
  /** The try that wants the day before it free of others, by its place; and for each day the one before. */
  readonly rested: { readonly at: number; readonly dayBefore: ReadonlyMap<string, string> } | null;
}

/** What an order is judged by: all that is given away, or first the event that gives most. */
export type Aim = "least in all" | "worst protected";

/** An hour for each session, in the order of the problem's tries. */
export interface Order {
  readonly hours: readonly Hour[];
  /** What each try gives away, as a share of its score. */
  readonly losses: readonly number[];
  readonly cost: number;
}

export interface OrderProgress {
  /** The best so far; null before the first. */
  readonly best: Order | null;
  readonly steps: number;
  readonly done: boolean;
}

const stepsAtOnce = 20_000;
/** Costs that differ less are the same. */
const precision = 1e-12;
/** Of the sum, what counts beside the worst, so that of two equal worsts the better sum wins. */
const sumBesideWorst = 0.01;

/**
 * Tries all orders that may be better than the best so far; the last is the best there is, or null where no order keeps
 * the week's limits.
 */
export function* bestOrder(problem: OrderProblem, aim: Aim, latestEndS = Number.POSITIVE_INFINITY): Generator<OrderProgress, Order | null> {
  const search = new OrderSearch(problem, aim, latestEndS);
  for (let steps = stepsAtOnce; ; steps += stepsAtOnce) {
    const open = search.goOn(stepsAtOnce);
    yield { best: search.best, steps, done: !open };
    if (!open) return search.best;
  }
}

/** Whether the day before a session has another, where it wants that day free. */
export function unrested({ rested, tries }: OrderProblem, at: number, date: string, others: readonly Placed[]): boolean {
  if (!rested) return false;
  const heavy = others.find(({ session }) => session === tries[rested.at]?.session);
  if (at !== rested.at) return heavy !== undefined && rested.dayBefore.get(heavy.date) === date;
  return others.some((other) => other.date === rested.dayBefore.get(date));
}

/** What an order costs, and what each try gives away. */
export function costOf(problem: OrderProblem, hours: readonly Hour[], aim: Aim): Order {
  const { tries } = problem;
  const losses = tries.map((_, to) =>
    tries.reduce((sum, { lastsS }, from) => {
      const [before, after] = [hours[from], hours[to]];
      return before && after && from !== to && before.startS < after.startS
        ? sum + takenAfter(problem, from, to, after.startS - before.startS - lastsS)
        : sum;
    }, 0),
  );
  return { hours, losses, cost: aimed(problem, losses, aim) };
}

/** The share that one session takes from another that begins some seconds after its end. */
export function takenAfter({ takes, halfLivesS }: OrderProblem, from: number, to: number, gapS: number): number {
  return (takes[from]?.[to] ?? []).reduce(
    (sum, share, part) => sum + (share > 0 ? share * 2 ** (-Math.max(0, gapS) / (halfLivesS[part] ?? 1)) : 0),
    0,
  );
}

/** A second try counts as an event of its own. */
function aimed({ tries }: OrderProblem, losses: readonly number[], aim: Aim): number {
  let [sum, worst] = [0, 0];
  tries.forEach(({ weight }, at) => {
    const loss = weight * (losses[at] ?? 0);
    sum += loss;
    worst = Math.max(worst, loss);
  });
  return aim === "least in all" ? sum : worst + sumBesideWorst * sum;
}

interface Standing extends Placed {
  readonly at: number;
  readonly hour: Hour;
  /** The place of its hour among all hours, in order of time. */
  readonly slot: number;
  readonly loss: number;
}

interface Frame {
  readonly standing: readonly Standing[];
  /** With the least that an order costs which goes on so. */
  readonly next: readonly { readonly standing: Standing; readonly rest: readonly number[]; readonly least: number }[];
  at: number;
}

class OrderSearch {
  best: Order | null = null;
  /** Every hour at which anything may begin, in order of time. */
  private readonly slots: readonly number[];
  /** What one takes from another, by both and the slots in which they begin. */
  private readonly taken: Float64Array;
  /** For each try, the last slot in which it may begin. */
  private readonly latest: readonly number[];
  private readonly shareOfSum: number;
  private readonly firstTries: readonly (readonly number[])[];
  /**
   * By who stands and where the last does: what has been lost, and what is left for those to come, of every way to there
   * that is worth keeping.
   */
  private readonly ways = new Map<string, Float64Array[]>();
  /** Sessions that stand, in order of time, and what may follow; the innermost last. */
  private readonly frames: Frame[] = [];

  constructor(
    private readonly problem: OrderProblem,
    private readonly aim: Aim,
    private readonly latestEndS: number,
  ) {
    const { tries } = problem;
    this.shareOfSum = aim === "least in all" ? 1 : sumBesideWorst;
    this.slots = [...new Set(tries.flatMap(({ hours }) => hours.map(({ startS }) => startS)))].sort((a, b) => a - b);
    this.latest = tries.map(({ hours }) => Math.max(...hours.map(({ startS }) => this.slots.indexOf(startS))));
    this.taken = this.allTaken();
    this.firstTries = tries.map(({ session }) =>
      tries.flatMap((other, at) => (session.again && !other.session.again && other.session.event === session.event ? [at] : [])),
    );
    this.put(
      [],
      tries.map((_, at) => at),
    );
  }

  /** Some more steps, each one session put somewhere; false when all orders are tried or ruled out. */
  goOn(steps: number): boolean {
    const { frames } = this;
    for (let step = 0; step < steps; step += 1) {
      const frame = frames.at(-1);
      if (!frame) return false;
      const next = frame.next[frame.at];
      frame.at += 1;
      // The cheapest come first: what follows one that cannot be better cannot be either.
      if (!next || (this.best && next.least >= this.best.cost - precision)) {
        frames.pop();
        continue;
      }
      if (this.outdone([...frame.standing, next.standing], next.rest)) continue;
      this.put([...frame.standing, next.standing], next.rest);
    }
    return frames.length > 0;
  }

  /**
   * Whether another way to the same sessions, the last in the same hour, has lost no more and leaves no more in any part for
   * any that is to come: whatever follows, it does at least as well.
   */
  private outdone(standing: readonly Standing[], rest: readonly number[]): boolean {
    const last = standing.at(-1);
    if (!last || rest.length === 0) return false;
    const key = `${rest.join()} ${last.slot} ${last.at} ${standing.filter(({ date }) => date === last.date).length}`;
    const way = this.wayOf(standing, rest, last.startS);
    const known = this.ways.get(key) ?? [];
    if (known.some((other) => other.every((value, at) => value <= (way[at] ?? 0)))) return true;
    this.ways.set(key, [...known.filter((other) => !way.every((value, at) => value <= (other[at] ?? 0))), way]);
    return false;
  }

  private wayOf(standing: readonly Standing[], rest: readonly number[], atS: number): Float64Array {
    const { tries, takes, halfLivesS } = this.problem;
    const way = new Float64Array(2 + rest.length * halfLivesS.length);
    for (const { at, loss } of standing) {
      way[0] = (way[0] ?? 0) + (tries[at]?.weight ?? 1) * loss;
      way[1] = Math.max(way[1] ?? 0, (tries[at]?.weight ?? 1) * loss);
    }
    if (this.aim === "least in all") way[1] = 0;
    rest.forEach((to, place) =>
      halfLivesS.forEach((halfLifeS, part) => {
        let left = 0;
        for (const { at, endS } of standing) left += (takes[at]?.[to]?.[part] ?? 0) * 2 ** (-(atS - endS) / halfLifeS);
        way[2 + place * halfLivesS.length + part] = left;
      }),
    );
    return way;
  }

  private put(standing: readonly Standing[], open: readonly number[]): void {
    if (open.length > 0) {
      const next = this.nextOf(standing, open).map((one) => {
        const rest = open.filter((at) => at !== one.at);
        return { standing: one, rest, least: this.leastWith([...standing, one], rest) };
      });
      this.frames.push({ standing, next: next.sort((a, b) => a.least - b.least), at: 0 });
      return;
    }
    const order = costOf(
      this.problem,
      standing.toSorted((a, b) => a.at - b.at).map(({ hour }) => hour),
      this.aim,
    );
    if (!this.best || order.cost < this.best.cost - precision) this.best = order;
  }

  /** Every session that may come next, at every hour at which it may. */
  private nextOf(standing: readonly Standing[], open: readonly number[]): readonly Standing[] {
    const { tries } = this.problem;
    const lastS = standing.at(-1)?.startS ?? Number.NEGATIVE_INFINITY;
    const next: Standing[] = [];
    for (const at of open) {
      const one = tries[at];
      if (!one || this.firstTries[at]?.some((first) => open.includes(first))) continue;
      for (const hour of one.hours) {
        const placed = { session: one.session, date: hour.date, startS: hour.startS, endS: hour.startS + one.lastsS };
        if (
          hour.startS <= lastS ||
          placed.endS > this.latestEndS ||
          faultsAmong(this.problem, placed, standing).length > 0 ||
          unrested(this.problem, at, hour.date, standing)
        )
          continue;
        const slot = this.slots.indexOf(hour.startS);
        next.push({ ...placed, at, hour, slot, loss: this.lossAt(at, slot, standing) });
      }
    }
    return next;
  }

  private allTaken(): Float64Array {
    const {
      slots,
      problem: { tries },
    } = this;
    const taken = new Float64Array((tries.length * slots.length) ** 2);
    tries.forEach(({ lastsS }, from) =>
      tries.forEach((_, to) =>
        slots.forEach((fromS, early) =>
          slots.forEach((toS, late) => {
            if (from !== to && early <= late)
              taken[this.placeOf(from, to, early, late)] = takenAfter(this.problem, from, to, toS - fromS - lastsS);
          }),
        ),
      ),
    );
    return taken;
  }

  private placeOf(from: number, to: number, early: number, late: number): number {
    const { length } = this.slots;
    return ((from * this.problem.tries.length + to) * length + early) * length + late;
  }

  private takenBy(from: number, to: number, early: number, late: number): number {
    return this.taken[this.placeOf(from, to, early, late)] ?? 0;
  }

  private lossAt(at: number, slot: number, standing: readonly Standing[]): number {
    let sum = 0;
    for (const before of standing) sum += this.takenBy(before.at, at, before.slot, slot);
    return sum;
  }

  /**
   * No order that goes on from these costs less: who stands has lost what it lost; who does not loses at least what these
   * leave at its last hour; and of two that do not stand one comes before the other, both after all that do.
   */
  private leastWith(standing: readonly Standing[], open: readonly number[]): number {
    const {
      latest,
      problem: { tries },
    } = this;
    const losses = tries.map(() => 0);
    for (const { at, loss } of standing) losses[at] = loss;
    for (const at of open) losses[at] = this.lossAt(at, latest[at] ?? 0, standing);
    const last = standing.at(-1)?.slot ?? 0;
    let pairs = 0;
    for (let one = 0; one < open.length; one += 1) {
      const a = open[one] ?? 0;
      for (let other = one + 1; other < open.length; other += 1) {
        const b = open[other] ?? 0;
        pairs += Math.min(
          (tries[b]?.weight ?? 1) * this.takenBy(a, b, last, latest[b] ?? 0),
          (tries[a]?.weight ?? 1) * this.takenBy(b, a, last, latest[a] ?? 0),
        );
      }
    }
    return aimed(this.problem, losses, this.aim) + this.shareOfSum * pairs;
  }
}
