/**
 * What a plan leaves in the body for the days after: for each athlete and part of the body a load, which halves in its
 * own time and costs capacity until it is gone. Half-lives and cost are assumed; `assume` sets them.
 */
import type { Constants } from "../3-plan/assumptions.js";
import { subjectKey } from "../3-plan/names.js";
import { loadFor, type PlanSpec, turnsOf } from "../3-plan/plan.js";
import { type BodyPart, bodyParts } from "../3-plan/world.js";
import type { Abilities } from "./ability.js";
import { subjectNumber } from "./draw.js";
import type { Timeline } from "./timeline.js";

/**
 * Units by athlete, in the order of `bodyParts`: an unbroken set, or a hold to failure, that asks for one part alone
 * leaves one unit there.
 */
export type FatigueLoad = ReadonlyMap<string, readonly number[]>;

export const noLoad: FatigueLoad = new Map();

/**
 * What a plan as expected leaves in each of its team: reps / most unbroken, or time held / time to failure, times what
 * it asks of the part.
 */
export function loadOf({ team, steps }: PlanSpec, { segments }: Timeline, abilities: Abilities): FatigueLoad {
  const works = new Map(turnsOf(steps).map((turn) => [turn.id, turn.works] as const));
  const load = new Map(team.athletes.map(({ name }) => [name, bodyParts.map(() => 0)] as const));
  const unbrokenOf = (athlete: string, movement: string, step: number | null): number => {
    const work = works.get(step ?? -1)?.find((one) => one.movement === movement);
    return abilities.unbroken(athlete, movement, loadFor(team, athlete, work?.load ?? null)).reps;
  };
  for (const { athlete, activity, subject, step, reps, startS, endS } of segments) {
    const units = load.get(athlete);
    if (subject === null || !units) continue;
    const done =
      activity === "hold" ? (endS - startS) / abilities.hold(athlete, subject).seconds : reps / unbrokenOf(athlete, subject, step);
    const asks = abilities.asksOf(subjectKey(subject));
    bodyParts.forEach((part, at) => (units[at] = (units[at] ?? 0) + done * (asks.get(part) ?? 0)));
  }
  return load;
}

/** What is left of a load after some seconds. */
export function loadAfter(load: FatigueLoad, seconds: number, constants: Constants): FatigueLoad {
  const shares = bodyParts.map((part) => shareAfter(part, seconds, constants));
  return new Map([...load].map(([athlete, units]) => [athlete, units.map((unit, at) => unit * (shares[at] ?? 0))] as const));
}

/** Of a load in a part, what is left after some seconds, 0…1. */
export function shareAfter(part: BodyPart, seconds: number, constants: Constants): number {
  return 2 ** (-Math.max(0, seconds) / constants[`${part} half-life`]);
}

export function bothLoads(one: FatigueLoad, other: FatigueLoad): FatigueLoad {
  const athletes = new Set([...one.keys(), ...other.keys()]);
  return new Map(
    [...athletes].map(
      (athlete) => [athlete, bodyParts.map((_, at) => (one.get(athlete)?.[at] ?? 0) + (other.get(athlete)?.[at] ?? 0))] as const,
    ),
  );
}

/** What is back of a part that has some units left in it, 0…1. */
export function backAt(units: number, constants: Constants): number {
  return (1 - constants["load cost"]) ** units;
}

/** What is left of everybody's capacity under a load, for runs of a plan: by the athlete's place and the subject's number. */
export function capacityUnder(
  load: FatigueLoad,
  plan: PlanSpec,
  abilities: Abilities,
  constants: Constants,
): (place: number, subject: number) => number {
  const factors = new Map<number, readonly number[]>();
  for (const subject of subjectsOfPlan(plan)) {
    const key = subjectKey(subject);
    const asks = bodyParts.map((part) => abilities.asksOf(key).get(part) ?? 0);
    factors.set(
      subjectNumber(key),
      plan.team.athletes.map(({ name }) =>
        backAt(
          (load.get(name) ?? []).reduce((sum, units, at) => sum + units * (asks[at] ?? 0), 0),
          constants,
        ),
      ),
    );
  }
  return (place, subject) => factors.get(subject)?.[place] ?? 1;
}

/** Movements and holds of a plan, each once. */
export function subjectsOfPlan({ steps }: PlanSpec): readonly string[] {
  return [
    ...new Set(turnsOf(steps).flatMap(({ works, hold }) => [...works.map(({ movement }) => movement), ...(hold === null ? [] : [hold])])),
  ];
}
