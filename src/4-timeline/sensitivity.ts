import { type AssumptionName, assumptions, type Constants } from "../3-plan/assumptions.js";
import type { PlanSpec } from "../3-plan/plan.js";
import type { Abilities } from "./ability.js";
import { type Chance, Draw, spread } from "./draw.js";
import { Simulator } from "./simulator.js";
import { usualSeed } from "./spread.js";
import type { Subject } from "./subjects.js";

/** Days on which a change is tried: the same for every change, so that what differs is the change. */
const days = 32;

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
  ["handover", 2, 5], ["set-up", 0, 2], ["miss cost", 2, 5], ["step cost", 0.1, 0.6], ["step no-rep", 0, 0.2], ["break rest", 3, 8],
  ["carry-over", 0.25, 0.75], ["regrip", 5, 15],
];

/** What moves a plan's score most within its own uncertainty, most first; what moves nothing is left out. */
export function moversOf(plan: PlanSpec, abilities: Abilities, constants: Constants): readonly Mover[] {
  const now = meanScore(plan, abilities, constants, null);
  const simulator = new Simulator(plan, abilities, constants, plan.event.capS);
  const ofPeople = simulator.subjects.flatMap((subject) => movedBy(subject).map(([kind, sigma]): Mover => {
    const [from, to] = [Math.exp(-sigma), Math.exp(sigma)];
    const at = (factor: number): number => meanScore(plan, abilities, constants, { subject, kind, factor });
    return { what: { kind, athlete: subject.athlete, subject: subject.subject }, from, to, now, low: at(from), high: at(to) };
  }));
  const ofConstants = likelyFor(plan).map(([name, from, to]): Mover => {
    const at = (value: number): number => meanScore(plan, abilities, { ...constants, [name]: value }, null);
    return { what: { kind: "constant", name }, from, to, now, low: at(from), high: at(to) };
  });
  return [...ofPeople, ...ofConstants].filter(({ low, high }) => Math.abs(high - low) > 1e-6).sort((a, b) => Math.abs(b.high - b.low) - Math.abs(a.high - a.low));
}

/** Constants that an event leaves open. */
function likelyFor({ event }: PlanSpec): typeof likely {
  return likely.filter(([name]) => !(name === "handover" && event.handoverS !== null) && !(name === "set-up" && event.setUpS !== null));
}

function movedBy({ hold, untested }: Subject): readonly (readonly [kind: "ability" | "recovery" | "hold", sigma: number])[] {
  if (hold) return [["hold", spread.test]];
  return untested ? [["ability", spread.test], ["recovery", spread.recovery]] : [["ability", spread.test]];
}

interface Tweak {
  readonly subject: Subject;
  readonly kind: "ability" | "recovery" | "hold";
  readonly factor: number;
}

/** Mean score over the days; a day on which the work is not done counts as twice the cap. */
function meanScore(plan: PlanSpec, abilities: Abilities, constants: Constants, tweak: Tweak | null): number {
  const { score, capS } = plan.event;
  const simulator = new Simulator(plan, abilities, constants, score === "time" ? null : capS);
  const draw = new Draw(usualSeed);
  const chance = tweak ? tweaked(draw, tweak) : draw;
  let sum = 0;
  for (let day = 0; day < days; day += 1) {
    draw.go(day);
    const { endS, finished, reps } = simulator.run(chance);
    sum += score === "reps" ? reps : finished ? endS : 2 * (capS ?? endS);
  }
  return sum / days;
}

function tweaked(draw: Draw, { subject, kind, factor }: Tweak): Chance {
  const meant = (place: number, number: number): boolean => place === subject.place && number === subject.number;
  return {
    ability: (place, number) => draw.ability(place, number) * (kind !== "recovery" && meant(place, number) ? factor : 1),
    recovery: (place, number) => draw.recovery(place, number) * (kind === "recovery" && meant(place, number) ? factor : 1),
    cycle: (place) => draw.cycle(place),
    set: (place, nth) => draw.set(place, nth),
    handover: (nth) => draw.handover(nth),
  };
}

/** Where the order of two plans turns, for one constant within its range; `at` null where it does not. */
export interface BreakEven {
  readonly name: AssumptionName;
  readonly from: number;
  readonly to: number;
  readonly now: number;
  readonly at: number | null;
}

const bisections = 20;

/** For each constant that both plans leave open: the value nearest to today's at which the other plan would be the better one. */
export function breakEvensOf(one: PlanSpec, other: PlanSpec, abilities: Abilities, constants: Constants): readonly BreakEven[] {
  const open = likelyFor(one).filter(([name]) => likelyFor(other).some(([also]) => also === name));
  return open.map(([name, from, to]) => {
    const wide: readonly [number, number] = name === "step no-rep" ? [0, assumptions[name].most] : [from, to];
    const lead = (value: number): number => {
      const changed = { ...constants, [name]: value };
      return meanScore(one, abilities, changed, null) - meanScore(other, abilities, changed, null);
    };
    const now = constants[name];
    const side = Math.sign(lead(now));
    const turns = wide.map((end) => turnBetween(lead, now, side, end)).filter((at) => at !== null);
    const at = turns.sort((a, b) => Math.abs(a - now) - Math.abs(b - now))[0] ?? null;
    return { name, from: wide[0], to: wide[1], now, at };
  });
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
