import { randomLcg } from "d3-random";
import type { Constants } from "../3-plan/assumptions.js";
import type { EventSpec } from "../3-plan/event.js";
import type { Team } from "../3-plan/world.js";
import type { Abilities } from "../4-timeline/ability.js";
import { arrangements } from "./arrange.js";
import { Climb } from "./climb.js";
import type { Worth } from "./cost.js";
import type { Draft } from "./draft.js";

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
/** Steps of that first look, for each. */
const firstLook = 40;

/**
 * Looks for plans of an event. Anytime: each value it yields is the best so far, and it goes on until it is not asked
 * again. The same seed gives the same plans after the same steps.
 */
export function* suggest(event: EventSpec, team: Team, abilities: Abilities, constants: Constants, seed = 1): Generator<Progress, void, void> {
  let steps = 0;
  const climbs: { readonly kind: string; readonly climb: Climb }[] = [];
  const progress = (): Progress => ({ steps, suggestions: climbs.flatMap(({ kind, climb }) => suggestionsOf(kind, climb)).sort(byWorth) });
  for (const { kind, draft } of arrangements(event, team)) {
    climbs.push({ kind, climb: new Climb(draft, abilities, constants, randomLcg((seed % 9973) / 9973)) });
    yield progress();
  }
  if (climbs.length === 0) return;
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

/** The best of a kind; and what a miss would win, where it wins something. */
function suggestionsOf(kind: string, { best, worth, daring }: Climb): readonly Suggestion[] {
  const careful: Suggestion = { kind, draft: best, worth };
  const wins = worth.sound && !daring.worth.sound && daring.worth.cost < worth.cost;
  return wins ? [careful, { kind: `${kind}, at the risk of a miss`, ...daring }] : [careful];
}

function byWorth(a: Suggestion, b: Suggestion): number {
  return Number(b.worth.sound) - Number(a.worth.sound) || a.worth.cost - b.worth.cost;
}
