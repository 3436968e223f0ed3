import { clock, counted, percent, plain } from "../0-base/quantity.js";
import { assumptions, type AssumptionName, type Constants } from "../3-plan/assumptions.js";
import type { PlanSpec } from "../3-plan/plan.js";
import type { Abilities } from "../4-timeline/ability.js";
import type { Ask } from "../4-timeline/worth-asking.js";
import {
  type BreakEven,
  breakEvensOf,
  type MovedThing,
  type Mover,
  noRepBreakEven,
  type NoRepBreakEven,
} from "../4-timeline/sensitivity.js";

/** What moves a score, and what would turn an order, in sentences; the numbers in the unit of what they are about. */

const mostMovers = 6;

/** What moves a score, to be drawn and to be said. */
export interface MoverLine {
  readonly words: string;
  /** Scores at the lower and the higher end of what is moved, and as it stands. */
  readonly low: number;
  readonly high: number;
  readonly now: number;
  /** `13:20–13:58`. */
  readonly range: string;
}

/** The few things that move a plan's score most within their own uncertainty; what a test would settle says so. */
export function moversInWords(movers: readonly Mover[], kind: "time" | "reps"): readonly MoverLine[] {
  const score = (value: number): string => (kind === "time" ? clock(value) : plain(value));
  return movers.slice(0, mostMovers).map(({ what, from, to, low, high, now }) => ({
    words: thingWords(what, from, to),
    low,
    high,
    now,
    range: `${score(Math.min(low, high))}–${score(Math.max(low, high))}`,
  }));
}

/** The same as lines of text. */
export function moverLines(movers: readonly Mover[], kind: "time" | "reps"): readonly string[] {
  return moversInWords(movers, kind).map(({ range, words }) => `${range}  ${words}`);
}

/** An untested recovery moves a score less than this share of it: not worth a word. */
const worthTesting = 0.02;

/** The one recovery that nobody tested and that a score hangs on most; null where it hangs on none. */
export function hangsOn(untested: readonly Mover[], kind: "time" | "reps"): string | null {
  const [most] = untested;
  if (!most || most.what.kind !== "recovery" || Math.abs(most.high - most.low) < worthTesting * most.now) return null;
  const {
    what: { athlete, subject },
    low,
    high,
  } = most;
  const swing = kind === "time" ? `${plain(Math.abs(high - low), 0)} s` : counted(Math.round(Math.abs(high - low)), "rep");
  return `Worth a test: how fast ${athlete} recovers at ${subject} is a guess, and moves the score by ${swing}. A row “${subject} in 5 min” would tell.`;
}

function thingWords(what: MovedThing, from: number, to: number): string {
  switch (what.kind) {
    case "ability":
      return `${what.athlete} at ${what.subject}, ${percent(to - 1)} more or less in the test`;
    case "hold":
      return `${what.athlete}'s hold on ${what.subject}, ${percent(to - 1)} more or less in the test`;
    case "recovery":
      return `${what.athlete}'s recovery at ${what.subject}, which nobody tested: a row “${what.subject} in 5 min” would tell`;
    case "constant":
      return `${what.name} from ${amount(what.name, from)} to ${amount(what.name, to)} (assumed)`;
  }
}

/** What a constant is said to be, before “more than …”. */
const doing: Readonly<Partial<Record<AssumptionName, string>>> = {
  handover: "a handover takes",
  "set-up": "taking a movement up again takes",
  "miss cost": "a missed rep costs",
  "step cost": "being in step costs a rep",
  "step no-rep": "two spent partners lose to no-reps",
  "break rest": "the rest inside a broken set lasts",
  "carry-over": "one movement costs another",
  regrip: "a dropped hold rests",
};

/** What would have to be true for the other plan to be the better one. */
export function breakEvenLines(found: readonly BreakEven[], leader: string, follower: string): readonly string[] {
  const turning = found.filter(({ at }) => at !== null);
  const steady = found
    .filter(({ at }) => at === null)
    .map(({ name, from, to }) => `${name} from ${amount(name, from)} to ${amount(name, to)}`);
  const turns = turning.map(
    ({ name, at, now }) =>
      `${follower} is better once ${doing[name] ?? `${name} is`} ${(at ?? 0) > now ? "more" : "less"} than ${amount(name, at ?? 0)}; assumed: ${amount(name, now)}.`,
  );
  const stays = steady.length > 0 ? [`${leader} stays ahead for ${steady.join(", ")}.`] : [];
  return [...turns, ...stays];
}

/** What the weaker pair may lose to no-reps before the other pairing is the better one; null where the order stands. */
export function noRepLine(found: NoRepBreakEven | null, follower: string): string | null {
  if (!found || found.at === null) return null;
  const share =
    found.at < 0.02
      ? "a few of their tries"
      : found.at < 1 / 3
        ? `1 try in ${Math.max(3, Math.round(1 / found.at))}`
        : `${percent(found.at)} of their tries`;
  return `${follower} wins only if ${found.pair.join(" and ")} lose ${found.at < 0.02 ? "" : "more than "}${share} to no-reps.`;
}

function amount(name: AssumptionName, value: number): string {
  const { dimension } = assumptions[name];
  return dimension === "share" ? percent(value) : dimension === "time" ? `${plain(value)} s` : plain(value, 3);
}

/** What would have to be true for the plan that is behind to win. */
export interface WhatTurns {
  readonly follower: string;
  readonly lines: readonly string[];
}

/** `firstLeads`: whether the first beats the second on at least half of the days. */
export function whatTurns(
  first: PlanSpec,
  second: PlanSpec,
  firstLeads: boolean,
  { abilities, world: { constants } }: { readonly abilities: Abilities; readonly world: { readonly constants: Constants } },
): WhatTurns {
  const [leader, follower] = firstLeads ? [first.name, second.name] : [second.name, first.name];
  const inStep = noRepLine(noRepBreakEven(first, second, abilities, constants), follower);
  return {
    follower,
    lines: [...(inStep ? [inStep] : []), ...breakEvenLines([...breakEvensOf(first, second, abilities, constants)], leader, follower)],
  };
}

const mostAsks = 5;

/** Which tests would tell most of a plan's score, in sentences. */
export function askLines(asks: readonly Ask[], kind: "time" | "reps"): readonly string[] {
  const unit = kind === "time" ? "s" : "reps";
  return asks.slice(0, mostAsks).flatMap(({ unknown: { kind: of, athlete, subject, hold }, spread, after }) => {
    const gained = spread - after;
    if (gained < (kind === "time" ? 1 : 0.5)) return [];
    const test = hold
      ? `${athlete}'s hold on ${subject}`
      : of === "recovery"
        ? `${athlete}'s ${subject} in 5 min`
        : `${athlete}'s best unbroken set of ${subject}`;
    return [
      `Test ${test}${of === "recovery" ? "" : " once more"}: eight days of ten would lie within ${plain(after, 0)} ${unit}, not ${plain(spread, 0)}.`,
    ];
  });
}
