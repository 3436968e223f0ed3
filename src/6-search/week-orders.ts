import { addDays } from "../0-base/zoned.js";
import type { Constants } from "../3-plan/assumptions.js";
import { subjectKey } from "../3-plan/names.js";
import { type BodyPart, bodyParts } from "../3-plan/world.js";
import type { Abilities } from "../4-timeline/ability.js";
import { capacityUnder, type FatigueLoad, subjectsOfPlan } from "../4-timeline/fatigue.js";
import { type Days, runDays } from "../4-timeline/spread.js";
import { type FreshRun, givenAway, type SessionRun, type WeekRun } from "../4-timeline/week.js";
import { heaviestOf } from "../5-findings/week-rule.js";
import { hoursLeft } from "../5-findings/placing.js";
import { bestOrder, costOf, type Order, type OrderProblem, type OrderProgress } from "./order.js";

/** An order that is offered, and what it is for. */
export interface WeekOrder {
  readonly kind: "least given away" | "worst protected" | "a day in hand" | "yours, the open ones placed" | "as it stands";
  readonly order: Order;
}

export interface FoundOrders {
  readonly problem: OrderProblem;
  /** The best first, each different from the others; none where no order keeps the week's limits. */
  readonly orders: readonly WeekOrder[];
  /** The sessions that no hour of the week suits, by their place. */
  readonly nowhere: readonly number[];
  readonly steps: number;
  readonly done: boolean;
}

const daySeconds = 86_400;

/** Looks for orders of a week's sessions, each proven best for its aim; stopped earlier, the best so far. */
export function* weekOrders(week: WeekRun, abilities: Abilities, constants: Constants): Generator<FoundOrders, FoundOrders> {
  const rested = problemOf(week, abilities, constants);
  const problem = rested.rested && !possible(rested) ? { ...rested, rested: null } : rested;
  const nowhere = problem.tries.flatMap(({ hours }, at) => (hours.length === 0 ? [at] : []));
  const found: WeekOrder[] = [];
  let steps = 0;
  const so = (done: boolean): FoundOrders => ({ problem, orders: distinct([...found, ...standing(week, problem)]), nowhere, steps, done });
  if (nowhere.length > 0 || problem.tries.length === 0) return so(true);
  const ends = (order: Order): number => Math.max(...order.hours.map(({ startS }, at) => startS + (problem.tries[at]?.lastsS ?? 0)));
  const searches: readonly (readonly [WeekOrder["kind"], () => Generator<OrderProgress, Order | null>])[] = [
    ["least given away", () => bestOrder(problem, "least in all")],
    ...openOnly(week, problem),
    ["worst protected", () => bestOrder(problem, "worst protected")],
    ["a day in hand", () => bestOrder(problem, "least in all", found[0] ? ends(found[0].order) - daySeconds : 0)],
  ];
  for (const [kind, begin] of searches) {
    const before = steps;
    const others = [...found];
    for (const progress of begin()) {
      steps = before + progress.steps;
      if (progress.best) found.splice(0, found.length, ...others, { kind, order: progress.best });
      if (!progress.done) yield so(false);
    }
    if (found.length === 0) break;
  }
  return so(true);
}

/** Where some sessions have their hour and others not: those that have keep it. */
function openOnly(
  { sessions }: WeekRun,
  problem: OrderProblem,
): readonly (readonly [WeekOrder["kind"], () => Generator<OrderProgress, Order | null>])[] {
  const tries = problem.tries.map((one, at) => {
    const { date, time, start } = sessions[at]?.session ?? {};
    return start && date && time ? { ...one, hours: [{ date, time, startS: start.atS }] } : one;
  });
  const kept = sessions.filter(({ session }) => session.start).length;
  return kept === 0 || kept === sessions.length
    ? []
    : [["yours, the open ones placed", () => bestOrder({ ...problem, tries, rested: null }, "least in all")]];
}

/** Whether any order keeps the limits. */
function possible(problem: OrderProblem): boolean {
  const search = bestOrder(problem, "least in all");
  for (let step = search.next(); ; step = search.next()) {
    if (step.done) return step.value !== null;
    if (step.value.best) return true;
  }
}

/** The week as it is typed, where every session has its hour. */
function standing({ sessions }: WeekRun, problem: OrderProblem): readonly WeekOrder[] {
  const hours = sessions.flatMap(({ session: { date, time, start } }) =>
    date !== null && time !== null && start ? [{ date, time, startS: start.atS }] : [],
  );
  return hours.length === sessions.length ? [{ kind: "as it stands", order: costOf(problem, hours, "least in all") }] : [];
}

function distinct(orders: readonly WeekOrder[]): readonly WeekOrder[] {
  const hoursOf = ({ order }: WeekOrder): string => order.hours.map(({ startS }) => startS).join();
  return orders.filter((one, at) => orders.findIndex((other) => hoursOf(other) === hoursOf(one)) === at);
}

/** A week as a problem: each session's hours, and what it takes from each other. */
export function problemOf(week: WeekRun, abilities: Abilities, constants: Constants): OrderProblem {
  const { spec, sessions } = week;
  const prices = new Map<FreshRun["timeline"], Prices>();
  const priceOf = (run: FreshRun): Prices => {
    const known = prices.get(run.timeline) ?? pricesOf(run, abilities, constants);
    prices.set(run.timeline, known);
    return known;
  };
  return {
    mostADay: spec.mostADay,
    gapS: spec.gapS,
    rested: restedIn(week),
    halfLivesS: bodyParts.map((part) => constants[`${part} half-life`]),
    tries: sessions.map((one) => ({ session: one.session, weight: one.session.weight, lastsS: one.lastsS, hours: hoursOf(week, one) })),
    takes: sessions.map((from) =>
      sessions.map((to) => bodyParts.map((part) => (from === to || !to.run ? 0 : taken(from.leaves, priceOf(to.run), part)))),
    ),
  };
}

/** Common practice, no source: the event that asks most of grip, hinge and trunk follows a day without another. */
function restedIn({ spec, sessions }: WeekRun): OrderProblem["rested"] {
  const heaviest = heaviestOf(sessions);
  return heaviest && { at: heaviest.session.at, dayBefore: new Map(spec.days.map((date) => [date, addDays(date, -1)] as const)) };
}

/** Its own hour on every day; where no day has that free, the week's other hours too. */
function hoursOf(week: WeekRun, run: SessionRun): ReturnType<typeof hoursLeft> {
  const own = hoursLeft(week, run);
  if (own.length > 0 || run.session.time === null) return own;
  const { session } = run;
  return hoursLeft(week, { ...run, session: { ...session, time: null } });
}

function taken(leaves: FatigueLoad, prices: Prices, part: BodyPart): number {
  const at = bodyParts.indexOf(part);
  let sum = 0;
  for (const [athlete, units] of leaves) sum += (units[at] ?? 0) * (prices.get(athlete)?.[at] ?? 0);
  return sum;
}

/** By athlete and part of the body, the share of a plan's score that a unit of load there gives away. */
type Prices = ReadonlyMap<string, readonly number[]>;

/** Units in each part at which a price is measured: about what a hard event leaves by the next morning. */
const measuredAt = 2;
const days = 24;

/**
 * Measured on the simulator, on the same days: a load in one part of one athlete at a time, then all of them scaled so that
 * together they come to what the whole load gives away at once, since of two who work together the more tired one decides.
 */
function pricesOf({ plan, timeline }: FreshRun, abilities: Abilities, constants: Constants): Prices {
  const { kind } = timeline.score;
  const subjects = subjectsOfPlan(plan);
  const scoreUnder = (load: FatigueLoad): number =>
    meanOf(runDays(plan, abilities, constants, { to: days, tired: capacityUnder(load, plan, abilities, constants) }));
  const fresh = scoreUnder(new Map());
  const asked = bodyParts.map((part) => subjects.some((subject) => (abilities.asksOf(subjectKey(subject)).get(part) ?? 0) > 0));
  const loss = (load: FatigueLoad): number => Math.max(0, givenAway(kind, scoreUnder(load), fresh));
  const names = plan.team.athletes.map(({ name }) => name);
  const alone = names.map((name) =>
    bodyParts.map((_, at) => (asked[at] ? loss(new Map([[name, bodyParts.map((__, part) => (part === at ? measuredAt : 0))]])) : 0)),
  );
  const sum = alone.flat().reduce((all, one) => all + one, 0);
  const whole = loss(new Map(names.map((name) => [name, bodyParts.map(() => measuredAt)] as const)));
  const scale = sum > 0 ? whole / sum / measuredAt : 0;
  return new Map(names.map((name, place) => [name, (alone[place] ?? []).map((one) => one * scale)] as const));
}

/** Mean score; a day on which the work is not done counts as twice the middle one that is. */
function meanOf({ scores }: Days): number {
  const done = scores.filter(Number.isFinite).sort();
  const undone = 2 * (done[done.length >> 1] ?? 3600);
  return scores.reduce((sum, score) => sum + (Number.isFinite(score) ? score : undone), 0) / scores.length;
}
