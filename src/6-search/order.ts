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
/** Of the sum, what counts beside the worst, so that of two equal worsts the better sum wins. */
const sumBesideWorst = 0.01;

/** Tries all orders that may be better than the best so far; the last is the best there is, or null where no order keeps the week's limits. */
export function* bestOrder(problem: OrderProblem, aim: Aim, latestEndS = Number.POSITIVE_INFINITY): Generator<OrderProgress, Order | null> {
  const search = new OrderSearch(problem, aim, latestEndS);
  const walk = search.walk([]);
  for (let steps = stepsAtOnce; ; steps += stepsAtOnce) {
    let open = true;
    for (let step = 0; step < stepsAtOnce && open; step += 1) open = !walk.next().done;
    yield { best: search.best, steps, done: !open };
    if (!open) return search.best;
  }
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

/** Of an event that is tried twice the better try counts. */
function aimed({ tries }: OrderProblem, losses: readonly number[], aim: Aim): number {
  const byEvent = new Map<string, { loss: number; weight: number }>();
  tries.forEach(({ session: { event }, weight }, at) => {
    const known = byEvent.get(event);
    const loss = losses[at] ?? 0;
    if (known) Object.assign(known, { loss: Math.min(known.loss, loss), weight: Math.max(known.weight, weight) });
    else byEvent.set(event, { loss, weight });
  });
  let [sum, worst] = [0, 0];
  for (const { loss, weight } of byEvent.values()) {
    sum += weight * loss;
    worst = Math.max(worst, weight * loss);
  }
  return aim === "least in all" ? sum : worst + sumBesideWorst * sum;
}

interface Standing extends Placed {
  readonly at: number;
  readonly hour: Hour;
  readonly loss: number;
}

class OrderSearch {
  best: Order | null = null;
  private readonly taken = new Map<number, Map<number, number>>();
  /** For each try, the latest it may begin. */
  private readonly latestS: readonly number[];
  private readonly twice: readonly boolean[];
  private readonly shareOfSum: number;
  private readonly atLeast: readonly (readonly number[])[];

  constructor(private readonly problem: OrderProblem, private readonly aim: Aim, private readonly latestEndS: number) {
    const { tries } = problem;
    this.shareOfSum = aim === "least in all" ? 1 : sumBesideWorst;
    this.latestS = tries.map(({ hours }) => Math.max(...hours.map(({ startS }) => startS)));
    this.twice = tries.map(({ session }) => tries.filter((other) => other.session.event === session.event).length > 1);
    const firstS = Math.min(...tries.flatMap(({ hours }) => hours.map(({ startS }) => startS)));
    const widest = (from: number, to: number): number => {
      const weight = this.twice[to] ? 0 : (tries[to]?.weight ?? 1);
      return weight * takenAfter(problem, from, to, (this.latestS[to] ?? firstS) - firstS);
    };
    this.atLeast = tries.map((_, one) => tries.map((__, other) => (one === other ? 0 : Math.min(widest(one, other), widest(other, one)))));
  }

  /** Goes on from sessions that stand, in order of time; a step is one session put somewhere. */
  *walk(standing: readonly Standing[]): Generator<void, void> {
    const { tries } = this.problem;
    if (standing.length === tries.length) {
      const hours = tries.flatMap((_, at) => standing.find((one) => one.at === at)?.hour ?? []);
      const order = costOf(this.problem, hours, this.aim);
      if (!this.best || order.cost < this.best.cost - 1e-12) this.best = order;
      return;
    }
    const lastS = standing.at(-1)?.startS ?? Number.NEGATIVE_INFINITY;
    const next = tries.flatMap(({ session, lastsS, hours }, at) => (standing.some((one) => one.at === at) ? [] : hours.flatMap((hour): readonly Standing[] => {
      const { date, startS } = hour;
      if (startS <= lastS || startS + lastsS > this.latestEndS) return [];
      const placed = { session, date, startS, endS: startS + lastsS };
      if (faultsAmong(this.problem, placed, standing).length > 0) return [];
      if (session.again && tries.some((other, place) => !other.session.again && other.session.event === session.event && !standing.some((one) => one.at === place))) return [];
      return [{ ...placed, at, hour, loss: this.lossAt(at, startS, standing) }];
    })));
    next.sort((a, b) => a.startS - b.startS || a.loss - b.loss);
    for (const one of next) {
      yield;
      const then = [...standing, one];
      if (this.best && this.leastWith(then) >= this.best.cost - 1e-12) continue;
      yield* this.walk(then);
    }
  }

  private lossAt(at: number, startS: number, standing: readonly Standing[]): number {
    let sum = 0;
    for (const before of standing) sum += this.takenBy(before.at, at, startS - before.endS);
    return sum;
  }

  private takenBy(from: number, to: number, gapS: number): number {
    const pair = from * this.problem.tries.length + to;
    let known = this.taken.get(pair);
    if (!known) this.taken.set(pair, (known = new Map()));
    const share = known.get(gapS) ?? takenAfter(this.problem, from, to, gapS);
    known.set(gapS, share);
    return share;
  }

  /** No order that goes on from these costs less: who stands has lost what it lost, who does not loses at least what these leave at its last hour, and of two that do not, one comes after the other. */
  private leastWith(standing: readonly Standing[]): number {
    const { tries } = this.problem;
    const open = tries.map((_, at) => !standing.some((one) => one.at === at));
    const losses = tries.map((_, at) => standing.find((one) => one.at === at)?.loss ?? this.lossAt(at, this.latestS[at] ?? 0, standing));
    let pairs = 0;
    for (let one = 0; one < tries.length; one += 1) {
      if (!open[one]) continue;
      for (let other = one + 1; other < tries.length; other += 1) if (open[other]) pairs += this.atLeast[one]?.[other] ?? 0;
    }
    return aimed(this.problem, losses, this.aim) + this.shareOfSum * pairs;
  }
}
