import { type AssumptionName, assumptions, type Constants } from "../3-plan/assumptions.js";
import { loadFor, type PlanSpec, turnsOf } from "../3-plan/plan.js";
import type { Abilities } from "./ability.js";
import { altered, type Chance, Draw, spread } from "./draw.js";
import { ceilingReps } from "./models/reserve.js";
import { Simulator } from "./simulator.js";
import { usualSeed } from "./spread.js";
import type { RunSubject } from "./subjects.js";

/** Days on which a change is tried: the same for every change, so that what differs is the change. */
const days = 32;

/** A plan of so many turns and rests is tried on fewer: it takes as long, and its score hangs less on one day's luck. */
const longSteps = 300;
const daysOfLong = 8;

/** What a plan's score is when something of it is lower or higher than is thought, by as much as it may well be. */
export interface Mover {
  readonly what: MovedThing;
  /** Mean scores (s, or reps) at the lower and the higher end, and as it stands. */
  readonly low: number;
  readonly high: number;
  readonly now: number;
  /** The ends: factors for an ability, values in base units for a constant. */
  readonly from: number;
  readonly to: number;
}

export type MovedThing =
  | { readonly kind: "ability" | "recovery" | "hold"; readonly athlete: string; readonly subject: string }
  | { readonly kind: "constant"; readonly name: AssumptionName };

/** Constants that bear on a run itself, each with the range in which it may well lie. All assumed. */
const likely: readonly (readonly [name: AssumptionName, from: number, to: number])[] = [
  ["handover", 2, 5],
  ["set-up", 0, 2],
  ["miss cost", 2, 5],
  ["step cost", 0.1, 0.6],
  ["step no-rep", 0, 0.2],
  ["break rest", 3, 8],
  ["carry-over", 0.25, 0.75],
  ["regrip", 5, 15],
];

/** What moves a plan's score most within its own uncertainty, most first; what moves nothing is left out. */
export function moversOf(plan: PlanSpec, abilities: Abilities, constants: Constants): readonly Mover[] {
  const now = meanScore(plan, abilities, constants, null);
  const ofPeople = subjectsIn(plan, abilities, constants).flatMap((subject) =>
    movedBy(subject).map(([kind, sigma]) => personMoved(plan, abilities, constants, { subject, kind, sigma, now })),
  );
  const ofConstants = likelyFor(plan).map(([name, from, to]): Mover => {
    const at = (value: number): number => meanScore(plan, abilities, { ...constants, [name]: value }, null);
    return { what: { kind: "constant", name }, from, to, now, low: at(from), high: at(to) };
  });
  return mostFirst([...ofPeople, ...ofConstants]);
}

/** How much each recovery that nobody tested moves a plan's score, most first. */
export function untestedIn(plan: PlanSpec, abilities: Abilities, constants: Constants): readonly Mover[] {
  const untested = subjectsIn(plan, abilities, constants).filter((subject) => subject.untested);
  const moved = (some: readonly RunSubject[], onDays: number): readonly Moved[] => {
    const now = meanScore(plan, abilities, constants, null, onDays);
    const by = (subject: RunSubject) =>
      personMoved(plan, abilities, constants, { subject, kind: "recovery", sigma: spread.recovery, now, onDays });
    return some.map((subject) => ({ subject, mover: by(subject) }));
  };
  // Of very many, those that move nothing on a few days are not looked at on all.
  const first = untested.length > mostLooked ? moved(untested, fewDays).toSorted((a, b) => swing(b.mover) - swing(a.mover)) : [];
  const looked = first.length > 0 ? first.slice(0, mostLooked).map(({ subject }) => subject) : untested;
  return looked.length === 0 ? [] : mostFirst(moved(looked, days).map(({ mover }) => mover));
}

const mostLooked = 6;
const fewDays = 2;

interface Moved {
  readonly subject: RunSubject;
  readonly mover: Mover;
}

function swing({ low, high }: Mover): number {
  return Math.abs(high - low);
}

function subjectsIn(plan: PlanSpec, abilities: Abilities, constants: Constants): readonly RunSubject[] {
  return new Simulator(plan, abilities, constants, plan.event.capS).subjects;
}

interface Change {
  readonly subject: RunSubject;
  readonly kind: "ability" | "recovery" | "hold";
  readonly sigma: number;
  readonly now: number;
  readonly onDays?: number;
}

function personMoved(
  plan: PlanSpec,
  abilities: Abilities,
  constants: Constants,
  { subject, kind, sigma, now, onDays = days }: Change,
): Mover {
  const [from, to] = [Math.exp(-sigma), Math.exp(sigma)];
  const at = (factor: number): number => meanScore(plan, abilities, constants, factorOn(subject, kind, factor), onDays);
  return { what: { kind, athlete: subject.athlete, subject: subject.subject }, from, to, now, low: at(from), high: at(to) };
}

function mostFirst(movers: readonly Mover[]): readonly Mover[] {
  return movers.filter((mover) => swing(mover) > 1e-6).sort((a, b) => swing(b) - swing(a));
}

/** Constants that an event leaves open. */
function likelyFor({ event }: PlanSpec): typeof likely {
  return likely.filter(([name]) => !(name === "handover" && event.handoverS !== null) && !(name === "set-up" && event.setUpS !== null));
}

function movedBy({ hold, untested }: RunSubject): readonly (readonly [kind: "ability" | "recovery" | "hold", sigma: number])[] {
  if (hold) return [["hold", spread.test]];
  return untested
    ? [
        ["ability", spread.test],
        ["recovery", spread.recovery],
      ]
    : [["ability", spread.test]];
}

/** Mean score over the days; a day on which the work is not done counts as twice the cap. */
function meanScore(plan: PlanSpec, abilities: Abilities, constants: Constants, tweak: Tweak | null, onDays = days): number {
  const { score, capS } = plan.event;
  const simulator = new Simulator(plan, abilities, constants, score === "time" ? null : capS);
  const draw = new Draw(usualSeed);
  const chance = tweak ? tweak(draw) : draw;
  let [sum, most] = [0, onDays];
  for (let day = 0; day < most; day += 1) {
    draw.go(day);
    const { endS, finished, reps } = simulator.run(chance);
    sum += score === "reps" ? reps : finished ? endS : 2 * (capS ?? endS);
    if (simulator.steps > longSteps) most = Math.min(onDays, daysOfLong);
  }
  return sum / most;
}

type Tweak = (draw: Chance) => Chance;

function factorOn({ place, number }: RunSubject, kind: "ability" | "recovery" | "hold", factor: number): Tweak {
  const meant = (at: number, of: number): number => (at === place && of === number ? factor : 1);
  return (draw) => altered(draw, kind === "recovery" ? { recovery: meant } : { ability: meant });
}

function noRepsOf(pair: readonly number[], share: number): Tweak {
  return (draw) => altered(draw, { lost: (at, partner) => (pair.includes(at) && pair.includes(partner) ? share : 0) });
}

/** Where the order of two plans turns, for one constant within its range; `at` null where it does not. */
export interface BreakEven {
  readonly name: AssumptionName;
  readonly from: number;
  readonly to: number;
  readonly now: number;
  readonly at: number | null;
}

const bisections = 12;

/**
 * For each constant that both plans leave open: the value nearest to today's at which the other plan would be the better one.
 * One after another: who wants the first that turns need not pay for the rest.
 */
export function* breakEvensOf(
  one: PlanSpec,
  other: PlanSpec,
  abilities: Abilities,
  constants: Constants,
): Generator<BreakEven, void, void> {
  const open = likelyFor(one).filter(([name]) => likelyFor(other).some(([also]) => also === name));
  const leadIn = (changed: Constants): number => meanScore(one, abilities, changed, null) - meanScore(other, abilities, changed, null);
  const side = Math.sign(leadIn(constants));
  for (const [name, from, to] of open) {
    const wide: readonly [number, number] = name === "step no-rep" ? [0, assumptions[name].most] : [from, to];
    const now = constants[name];
    const lead = (value: number): number => leadIn({ ...constants, [name]: value });
    const turns = wide.map((end) => turnBetween(lead, now, side, end)).filter((at) => at !== null);
    const at = turns.sort((a, b) => Math.abs(a - now) - Math.abs(b - now))[0] ?? null;
    yield { name, from: wide[0], to: wide[1], now, at };
  }
}

/** The share of no-reps in the weaker pair at which the order of two pairings in step turns; `at` null where it does not. */
export interface NoRepBreakEven {
  readonly pair: readonly string[];
  readonly at: number | null;
}

/** Of the tries: a pair that loses more than this needs no plan but practice. */
const mostLost = 0.9;

/** For two plans that pair in step otherwise: what the weakest of the pairs that differ may lose to no-reps; null where none differ. */
export function noRepBreakEven(one: PlanSpec, other: PlanSpec, abilities: Abilities, constants: Constants): NoRepBreakEven | null {
  const [ours, theirs] = [pairsInStep(one, abilities), pairsInStep(other, abilities)];
  const differing = [...ours, ...theirs].filter(
    ({ names }) => !ours.some((pair) => sameNames(pair.names, names)) || !theirs.some((pair) => sameNames(pair.names, names)),
  );
  const [weakest] = differing.sort((a, b) => a.ceiling - b.ceiling);
  if (!weakest) return null;
  const places = weakest.names.map((name) => one.team.athletes.findIndex((athlete) => athlete.name === name));
  const lead = (share: number): number => {
    const lost = noRepsOf(places, share);
    return meanScore(one, abilities, constants, lost) - meanScore(other, abilities, constants, lost);
  };
  return { pair: weakest.names, at: turnBetween(lead, 0, Math.sign(lead(0)), mostLost) };
}

/** The pairs of a plan that work in step, each with what its two could come to alone within the event, in reps. */
function pairsInStep(
  { steps, team, event }: PlanSpec,
  abilities: Abilities,
): readonly { readonly names: readonly string[]; readonly ceiling: number }[] {
  const seconds = event.capS ?? aWhileS;
  return turnsOf(steps).flatMap(({ who, works }) =>
    works
      .filter(({ rhythm }) => rhythm === "in sync")
      .map(({ movement, load }) => {
        const each = who.map((name) => ceilingReps(abilities.movement(name, movement, loadFor(team, name, load)).reserve, seconds));
        return { names: [...who].sort(), ceiling: each.reduce((sum, reps) => sum + reps, 0) };
      }),
  );
}

/** How long the two of a pair are thought to work where an event has no cap. */
const aWhileS = 600;

function sameNames(one: readonly string[], other: readonly string[]): boolean {
  return one.join() === other.join();
}

/** Where a lead changes sides on the way from one value, where it is on `sign`, to another; null where it is on one side at both. */
function turnBetween(lead: (value: number) => number, from: number, sign: number, to: number): number | null {
  if (from === to || sign === 0 || Math.sign(lead(to)) === sign) return null;
  let [same, turned] = [from, to];
  for (let step = 0; step < bisections; step += 1) {
    const middle = (same + turned) / 2;
    if (Math.sign(lead(middle)) === sign) same = middle;
    else turned = middle;
  }
  return turned;
}
