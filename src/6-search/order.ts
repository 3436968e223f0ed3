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

/** Tries all orders that may be better than the best so far; the last is the best there is, or null where no order keeps the week's limits. */
export function* bestOrder(problem: OrderProblem, aim: Aim, latestEndS = Number.POSITIVE_INFINITY): Generator<OrderProgress, Order | null> {
  const search = new OrderSearch(problem, aim, latestEndS);
  const walk = search.walk([], problem.tries.map((_, at) => at));
  for (let steps = stepsAtOnce; ; steps += stepsAtOnce) {
    let open = true;
    for (let step = 0; step < stepsAtOnce && open; step += 1) open = !walk.next().done;
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
  const losses = tries.map((_, to) => tries.reduce((sum, { lastsS }, from) => {
    const [before, after] = [hours[from], hours[to]];
    return before && after && from !== to && before.startS < after.startS ? sum + takenAfter(problem, from, to, after.startS - before.startS - lastsS) : sum;
  }, 0));
  return { hours, losses, cost: aimed(problem, losses, aim) };
}

/** The share that one session takes from another that begins some seconds after its end. */
export function takenAfter({ takes, halfLivesS }: OrderProblem, from: number, to: number, gapS: number): number {
  return (takes[from]?.[to] ?? []).reduce((sum, share, part) => sum + (share > 0 ? share * 2 ** (-Math.max(0, gapS) / (halfLivesS[part] ?? 1)) : 0), 0);
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
  readonly loss: number;
}

class OrderSearch {
  best: Order | null = null;
  private readonly taken: Map<number, number>[];
  /** For each try, the latest it may begin. */
  private readonly latestS: readonly number[];
  private readonly shareOfSum: number;
  private readonly firstTries: readonly (readonly number[])[];

  constructor(private readonly problem: OrderProblem, private readonly aim: Aim, private readonly latestEndS: number) {
    const { tries } = problem;
    this.shareOfSum = aim === "least in all" ? 1 : sumBesideWorst;
    this.latestS = tries.map(({ hours }) => Math.max(...hours.map(({ startS }) => startS)));
    this.taken = Array.from({ length: tries.length ** 2 }, () => new Map());
    this.firstTries = tries.map(({ session }) => tries.flatMap((other, at) => (session.again && !other.session.again && other.session.event === session.event ? [at] : [])));
  }

  /** Goes on from sessions that stand, in order of time; a step is one session put somewhere. */
  *walk(standing: readonly Standing[], open: readonly number[]): Generator<void, void> {
    if (open.length === 0) {
      const hours = standing.toSorted((a, b) => a.at - b.at).map(({ hour }) => hour);
      const order = costOf(this.problem, hours, this.aim);
      if (!this.best || order.cost < this.best.cost - precision) this.best = order;
      return;
    }
    for (const one of this.nextOf(standing, open)) {
      yield;
      const [then, rest] = [[...standing, one], open.filter((at) => at !== one.at)];
      if (this.best && this.leastWith(then, rest) >= this.best.cost - precision) continue;
      yield* this.walk(then, rest);
    }
  }

  /** Every session that may come next, at every hour at which it may, the cheapest first. */
  private nextOf(standing: readonly Standing[], open: readonly number[]): readonly Standing[] {
    const { tries } = this.problem;
    const lastS = standing.at(-1)?.startS ?? Number.NEGATIVE_INFINITY;
    const next: Standing[] = [];
    for (const at of open) {
      const one = tries[at];
      if (!one || this.firstTries[at]?.some((first) => open.includes(first))) continue;
      for (const hour of one.hours) {
        const placed = { session: one.session, date: hour.date, startS: hour.startS, endS: hour.startS + one.lastsS };
        if (hour.startS <= lastS || placed.endS > this.latestEndS || faultsAmong(this.problem, placed, standing).length > 0 || unrested(this.problem, at, hour.date, standing)) continue;
        next.push({ ...placed, at, hour, loss: this.lossAt(at, hour.startS, standing) });
      }
    }
    return next.sort((a, b) => a.startS - b.startS || a.loss - b.loss);
  }

  private lossAt(at: number, startS: number, standing: readonly Standing[]): number {
    let sum = 0;
    for (const before of standing) sum += this.takenBy(before.at, at, startS - before.endS);
    return sum;
  }

  private takenBy(from: number, to: number, gapS: number): number {
    const pair = this.taken[from * this.problem.tries.length + to];
    const share = pair?.get(gapS) ?? takenAfter(this.problem, from, to, gapS);
    pair?.set(gapS, share);
    return share;
  }

  /**
   * No order that goes on from these costs less: who stands has lost what it lost; who does not loses at least what these
   * leave at its last hour; and of two that do not stand one comes before the other, both after all that do.
   */
  private leastWith(standing: readonly Standing[], open: readonly number[]): number {
    const { tries } = this.problem;
    const losses = tries.map(() => 0);
    for (const { at, loss } of standing) losses[at] = loss;
    for (const at of open) losses[at] = this.lossAt(at, this.latestS[at] ?? 0, standing);
    const lastS = standing.at(-1)?.startS ?? 0;
    const atLeast = (from: number, to: number): number => (tries[to]?.weight ?? 1) * this.takenBy(from, to, (this.latestS[to] ?? 0) - lastS - (tries[from]?.lastsS ?? 0));
    let pairs = 0;
    open.forEach((one, place) => {
      for (const other of open.slice(place + 1)) pairs += Math.min(atLeast(one, other), atLeast(other, one));
    });
    return aimed(this.problem, losses, this.aim) + this.shareOfSum * pairs;
  }
}
