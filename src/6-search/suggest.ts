import { randomLcg } from "d3-random";
import type { Constants } from "../3-plan/assumptions.js";
import type { EventSpec } from "../3-plan/event.js";
import type { PlanSpec } from "../3-plan/plan.js";
import type { Team } from "../3-plan/world.js";
import type { Abilities } from "../4-timeline/ability.js";
import { arrangements } from "./arrange.js";
import { Climb } from "./climb.js";
import type { Worth } from "./cost.js";
import { type Draft, draftOf } from "./draft.js";

/** A plan the search proposes: the best it has of its kind. */
export interface Suggestion {
  /** Who with whom. */
  readonly kind: string;
  readonly draft: Draft;
  readonly worth: Worth;
}

export interface Progress {
  /** Steps done. */
  readonly steps: number;
  /** Best first, a kind once; those that break a rule or miss come last. */
  readonly suggestions: readonly Suggestion[];
}

/** Steps between two looks at the clock. */
const stepsAtOnce = 20;
/** Kinds that are searched on after a first look at all. */
const finalists = 3;
/** Climbs at least, whatever the kinds. */
const climbers = 3;
/** Steps of that first look, for each. */
const firstLook = 40;

export interface Wish {
  readonly seed?: number;
  /** A plan to better: where the search can read its shape, it begins there too. */
  readonly from?: PlanSpec | null;
  /** Look for the best chance to beat this score (s, or reps) instead of the best expected one. */
  readonly target?: number | null;
}

/**
 * Looks for plans of an event. Anytime: each value it yields is the best so far, and it goes on until it is not asked
 * again. The same seed gives the same plans after the same steps.
 */
export function* suggest(event: EventSpec, team: Team, abilities: Abilities, constants: Constants, { seed = 1, from = null, target = null }: Wish = {}): Generator<Progress, void, void> {
  let steps = 0;
  const climbs: { readonly kind: string; readonly climb: Climb }[] = [];
  const progress = (): Progress => ({ steps, suggestions: bestOfKinds(climbs.flatMap(({ kind, climb }) => suggestionsOf(kind, climb))) });
  const own = from && draftOf(from);
  const starts = [...(own ? [{ kind: `as in ${from.name}`, draft: own }] : []), ...arrangements(event, team, from?.rules ?? [])];
  if (starts.length === 0 || noEnd(event) !== null) return;
  // One climb can be stuck where another is not: where there are few kinds, each is tried by several.
  for (let climber = 0; climber < Math.max(1, Math.ceil(climbers / starts.length)); climber += 1) {
    for (const { kind, draft } of starts) {
      const climb = new Climb(draft, abilities, constants, randomLcg(((seed + 101 * climber) % 9973) / 9973), target);
      climbs.push({ kind, climb });
      for (const _ of climb.begin()) yield progress();
    }
  }
  for (let looked = 0; looked < firstLook; looked += stepsAtOnce) {
    for (const { climb } of climbs) {
      for (let step = 0; step < stepsAtOnce; step += 1) climb.step();
      steps += stepsAtOnce;
      yield progress();
    }
  }
  for (;;) {
    const order = [...climbs].sort((a, b) => a.climb.daring.worth.cost - b.climb.daring.worth.cost).slice(0, finalists);
    // The leader gets as much as the two behind it together.
    for (const { climb } of [...order.slice(0, 1), ...order]) {
      for (let step = 0; step < stepsAtOnce; step += 1) climb.step();
      steps += stepsAtOnce;
      yield progress();
    }
  }
}

/** Why no plan of an event can be looked for; null where one can. */
export function noEnd({ name, stages, score, capS }: EventSpec): string | null {
  if (stages.length === 0) return `${name} has no stage yet: there is no work to share out.`;
  if (score === "reps" && capS === null) return `${name} is for reps and has no cap: write when it ends.`;
  return null;
}

/** The best of a kind; and what a miss would win, where it wins something. */
function suggestionsOf(kind: string, { best, worth, daring }: Climb): readonly Suggestion[] {
  const careful: Suggestion = { kind, draft: best, worth };
  const wins = worth.sound && !daring.worth.sound && daring.worth.cost < worth.cost;
  return wins ? [careful, { kind: `${kind}, at the risk of a miss`, ...daring }] : [careful];
}

function bestOfKinds(suggestions: readonly Suggestion[]): readonly Suggestion[] {
  const sorted = [...suggestions].sort(byWorth);
  return sorted.filter(({ kind }, at) => sorted.findIndex((one) => one.kind === kind) === at);
}

function byWorth(a: Suggestion, b: Suggestion): number {
  return Number(b.worth.sound) - Number(a.worth.sound) || a.worth.cost - b.worth.cost;
}
