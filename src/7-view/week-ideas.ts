import { clock, counted, percent, plain } from "../0-base/quantity.js";
import { wallAt } from "../0-base/zoned.js";
import type { Document } from "../1-text/document.js";
import type { Constants } from "../3-plan/assumptions.js";
import type { WeekLine } from "../3-plan/ast.js";
import { bodyParts } from "../3-plan/world.js";
import type { AnsweredBlock } from "./answered-block.js";
import type { Kept } from "../4-timeline/kept.js";
import { bothLoads, capacityUnder, type FatigueLoad, loadAfter, noLoad } from "../4-timeline/fatigue.js";
import { chanceToBeat, type Days, runDays, usualSeed } from "../4-timeline/spread.js";
import { scoreUnder, type WeekRun } from "../4-timeline/week.js";
import { faultsAmong, type Placed } from "../5-findings/placing.js";
import { findingsOnWeek } from "../6-search/check.js";
import { bestOrder, costOf, type Order, type OrderProblem, unrested } from "../6-search/order.js";
import { orderedText } from "../6-search/order-text.js";
import { type WeekOrder, weekOrders } from "../6-search/week-orders.js";

/** An order of a week as it is offered: what it is for, its days, why, and the block's text with it. Plain data. */
export interface WeekIdea {
  readonly kind: WeekOrder["kind"];
  /** Of each event's score, the share given away, summed. */
  readonly lost: number;
  readonly days: readonly string[];
  readonly reasons: readonly string[];
  /** Null for the week as it stands. */
  readonly text: string | null;
}

export interface WeekIdeas {
  readonly ideas: readonly WeekIdea[];
  /** What stands in the way of any order, in words; empty where there is one. */
  readonly faults: readonly string[];
  readonly steps: number;
  readonly done: boolean;
}

/** A week's block and what it comes to. */
export interface WeekBlock {
  readonly line: WeekLine;
  readonly text: string;
  readonly week: WeekRun;
}

/** A notebook's weeks, in the order of the text. */
export function weeksIn({
  documents,
}: {
  readonly documents: ReadonlyMap<string, { readonly blocks: readonly AnsweredBlock[] }>;
}): readonly (WeekBlock & { readonly block: AnsweredBlock })[] {
  return [...documents.values()].flatMap(({ blocks }) =>
    blocks.flatMap((block) => {
      const { line } = block.block.read;
      return line.kind === "week" && block.week ? [{ block, line, text: block.block.text, week: block.week }] : [];
    }),
  );
}

type Notebook = Pick<Kept, "abilities" | "world">;

/** Ideas for a week's order, better ones as they are found; the last has reasons. */
export function* weekIdeas(
  { line, text, week }: WeekBlock,
  kept: Notebook,
  documents: readonly Document[],
): Generator<WeekIdeas, WeekIdeas> {
  const {
    abilities,
    world: { constants },
  } = kept;
  const search = weekOrders(week, abilities, constants);
  for (let step = search.next(); ; step = search.next()) {
    const { problem, orders, nowhere, steps } = step.value;
    const [best] = orders;
    const ideas = orders
      .map((one) => ({ one, text: one.kind === "as it stands" ? null : orderedText(text, line, week, one.order) }))
      .map(({ one, text: ordered }): WeekIdea => ({
        kind: one.kind,
        lost: one.order.losses.reduce((sum, loss, at) => sum + loss * (problem.tries[at]?.weight ?? 1), 0),
        days: daysOf(week, one.order),
        reasons: step.done
          ? [
              ...(one === best
                ? [
                    ...whyFirst(week, problem, one.order, kept),
                    ...secondTries(week, one.order, kept),
                    ...breakEvens(week, problem, one.order),
                  ]
                : besideBest(one, best, problem)),
              ...practice(ordered, documents),
            ]
          : [],
        text: ordered,
      }));
    const faults =
      week.spec.days.length === 0
        ? ["The week names no day yet. Write its first day, or when the scores are due."]
        : [
            ...nowhere.map((at) => nowhereWords(week, at)),
            ...(step.done && nowhere.length === 0 && orders.every(({ kind }) => kind === "as it stands")
              ? ["No order keeps all of the week's limits: one more event a day, a shorter gap or another open day would have to give."]
              : []),
          ];
    if (step.done) return { ideas, faults, steps, done: true };
    yield { ideas, faults, steps, done: false };
  }
}

/** What common practice, and the week's own limits, have against an order that the model likes. */
function practice(text: string | null, documents: readonly Document[]): readonly string[] {
  return text === null
    ? []
    : findingsOnWeek(text, documents)
        .filter(({ severity }) => severity !== "note")
        .map(({ message }) => `Look twice: ${message}`);
}

function nowhereWords({ sessions }: WeekRun, at: number): string {
  return `No day of the week suits ${sessions[at]?.session.event ?? ""}: the floor is closed, somebody is away, or it would end too late. Open a day, or move one of these.`;
}

function daysOf({ spec, sessions }: WeekRun, { hours }: Order): readonly string[] {
  return hours
    .map(({ startS }, at) => ({ startS, session: sessions[at]?.session }))
    .sort((a, b) => a.startS - b.startS)
    .map(({ startS, session }) => {
      const { weekday, date, time } = wallAt(startS, spec.zone);
      return `${weekday} ${date.slice(5)} ${time}  ${session?.event ?? ""}${session?.again ? " again" : ""}`;
    });
}

function besideBest({ kind, order }: WeekOrder, best: WeekOrder | undefined, { tries }: OrderProblem): readonly string[] {
  if (!best) return [];
  const worst = (one: Order): number => one.losses.reduce((most, loss, at) => (loss > (one.losses[most] ?? 0) ? at : most), 0);
  const sum = (one: Order): number => one.losses.reduce((all, loss, at) => all + loss * (tries[at]?.weight ?? 1), 0);
  const more = `${plain(100 * (sum(order) - sum(best.order)))} % more given away in all`;
  if (kind === "worst protected")
    return [
      `${more}; no event gives away more than ${plain(100 * (order.losses[worst(order)] ?? 0))} %, where the first order has ${tries[worst(best.order)]?.session.event ?? ""} give ${plain(100 * (best.order.losses[worst(best.order)] ?? 0))} %.`,
    ];
  return [kind === "a day in hand" ? `${more}; over a day earlier, should something go wrong.` : `${more}.`];
}

/** Two sessions the other way round, and what that costs: found by price, told by the simulator. */
function whyFirst(week: WeekRun, problem: OrderProblem, { hours, cost }: Order, kept: Notebook): readonly string[] {
  const swaps = hours.flatMap((one, first) =>
    hours.flatMap((other, second) => {
      if (one.startS >= other.startS || !mayStand(problem, first, other.startS) || !mayStand(problem, second, one.startS)) return [];
      const swapped = hours.map((hour, at) => (at === first ? other : at === second ? one : hour));
      return keepsLimits(problem, swapped) ? [{ first, second, swapped, more: costOf(problem, swapped, "least in all").cost - cost }] : [];
    }),
  );
  return swaps
    .sort((a, b) => b.more - a.more)
    .slice(0, 2)
    .flatMap(({ first, second, swapped }) => {
      const words = [first, second].flatMap((at) => changeWords(week, at, hours, swapped, kept));
      const [early, late] = [week.sessions[first]?.session, week.sessions[second]?.session];
      return words.length === 0 || !early || !late
        ? []
        : [`${early.event} before ${late.event}${late.again ? "'s second try" : ""}: the other way round ${words.join(" and ")}.`];
    });
}

function mayStand({ tries }: OrderProblem, at: number, startS: number): boolean {
  return tries[at]?.hours.some((hour) => hour.startS === startS) ?? false;
}

function keepsLimits(problem: OrderProblem, hours: Order["hours"]): boolean {
  const placed = problem.tries.flatMap(({ session, lastsS }, at): readonly Placed[] => {
    const hour = hours[at];
    return hour ? [{ session, date: hour.date, startS: hour.startS, endS: hour.startS + lastsS }] : [];
  });
  return placed.every(
    (one) =>
      faultsAmong(
        problem,
        one,
        placed.filter((other) => other !== one),
      ).length === 0 &&
      !unrested(
        problem,
        one.session.at,
        one.date,
        placed.filter((other) => other !== one),
      ),
  );
}

/** What a session loses by a change of order, in its own score; nothing where it loses nothing to speak of. */
function changeWords(
  week: WeekRun,
  at: number,
  from: Order["hours"],
  to: Order["hours"],
  { abilities, world: { constants } }: Notebook,
): readonly string[] {
  const run = week.sessions[at]?.run;
  if (!run) return [];
  const [before, after] = [from, to].map((hours) => scoreUnder(run, leftUnder(week, at, hours, constants), abilities, constants));
  const { kind } = run.timeline.score;
  const lost = kind === "time" ? Math.round((after ?? 0) - (before ?? 0)) : Math.round((before ?? 0) - (after ?? 0));
  return lost > 0
    ? [
        `${week.sessions[at]?.session.event ?? ""} would lose ${kind === "time" ? (lost < 100 ? `${lost} s` : clock(lost)) : counted(lost, "rep")}`,
      ]
    : [];
}

function leftUnder({ sessions }: WeekRun, at: number, hours: Order["hours"], constants: Constants): FatigueLoad {
  const startS = hours[at]?.startS ?? 0;
  return sessions.reduce((load, { leaves, lastsS }, other) => {
    const beganS = hours[other]?.startS ?? startS;
    return beganS < startS ? bothLoads(load, loadAfter(leaves, startS - beganS - lastsS, constants)) : load;
  }, noLoad);
}

/** Days on which a second try is set against the first: the first met other days than the second. */
const triedDays = 400;
/** On fewer days than this a second try hardly pays. */
const seldom = 0.3;

/** On how many days each second try betters the first, with what the week has left of both; and whether that pays. */
function secondTries(week: WeekRun, { hours }: Order, { abilities, world: { constants } }: Notebook): readonly string[] {
  return week.sessions.flatMap(({ session, run }, at) => {
    const first = week.sessions.findIndex((other) => other.session.event === session.event && !other.session.again);
    if (!session.again || !run || first < 0) return [];
    const daysOfTry = (of: number, seed: number): Days =>
      runDays(run.plan, abilities, constants, {
        to: triedDays,
        seed,
        tired: capacityUnder(leftUnder(week, of, hours, constants), run.plan, abilities, constants),
      });
    const chance = chanceToBeat(daysOfTry(at, usualSeed + 1), daysOfTry(first, usualSeed));
    return [
      `The second try of ${session.event} betters the first on ${percent(chance)} of days${chance < seldom ? ": it hardly pays" : ""}.`,
    ];
  });
}

/** Between half and twice of what is assumed a half-life may well lie. */
const range = 2;
const bisections = 6;
const mostSteps = 200_000;

/** Where the best order turns, as a part of the body comes back slower or faster than is assumed. */
function breakEvens(week: WeekRun, problem: OrderProblem, { hours }: Order): readonly string[] {
  const turnedBy = (at: number, by: number): Order | null => {
    const other = solved({
      ...problem,
      halfLivesS: problem.halfLivesS.map((halfLife, place) => (place === at ? halfLife * by : halfLife)),
    });
    return other && firstDifference(week, hours, other.hours) !== null ? other : null;
  };
  const found = bodyParts.flatMap((part, at) => {
    const turns = [1 / range, range].flatMap((far) => {
      const order = turnedBy(at, far);
      return order ? [nearestTurn((by) => turnedBy(at, by), far, order)] : [];
    });
    const [nearest] = turns.sort((a, b) => Math.abs(Math.log(a.factor)) - Math.abs(Math.log(b.factor)));
    const event = nearest && firstDifference(week, hours, nearest.order.hours);
    if (!event) return [];
    const [now, then] = [problem.halfLivesS[at] ?? 0, (problem.halfLivesS[at] ?? 0) * nearest.factor].map((seconds) =>
      plain(seconds / 3600, 0),
    );
    return [
      `${event} is better once ${part} comes back ${nearest.factor > 1 ? "slower" : "faster"} than half in ${then} h; assumed: ${now} h.`,
    ];
  });
  return found.length > 0
    ? found.slice(0, 2)
    : ["The order stays the best if any part of the body comes back in half or in twice the time that is assumed."];
}

/** Where, on the way from 1 to a factor at which the order is another, it becomes that. */
function nearestTurn(
  turned: (by: number) => Order | null,
  far: number,
  farOrder: Order,
): { readonly factor: number; readonly order: Order } {
  let [same, factor, order] = [1, far, farOrder];
  for (let step = 0; step < bisections; step += 1) {
    const middle = Math.sqrt(same * factor);
    const there = turned(middle);
    if (there) [factor, order] = [middle, there];
    else same = middle;
  }
  return { factor, order };
}

/** Null where it would take too long. */
function solved(problem: OrderProblem): Order | null {
  const search = bestOrder(problem, "least in all");
  for (let step = search.next(); ; step = search.next()) {
    if (step.done) return step.value;
    if (step.value.steps >= mostSteps) return null;
  }
}

/** What comes first in another order where the sequence of events differs, as “X before Y”; null where it is the same. */
function firstDifference({ sessions }: WeekRun, hours: Order["hours"], others: Order["hours"]): string | null {
  const sequence = (of: Order["hours"]): readonly number[] =>
    of.map((_, at) => at).sort((a, b) => (of[a]?.startS ?? 0) - (of[b]?.startS ?? 0));
  const [own, other] = [sequence(hours), sequence(others)];
  const place = own.findIndex((at, index) => at !== other[index]);
  if (place < 0) return null;
  const name = (at: number | undefined): string =>
    `${sessions[at ?? 0]?.session.event ?? ""}${sessions[at ?? 0]?.session.again ? " again" : ""}`;
  return `${name(other[place])} before ${name(own[place])}`;
}
