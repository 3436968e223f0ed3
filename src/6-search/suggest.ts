import { randomLcg } from "d3-random";
import type { Constants } from "../3-plan/assumptions.js";
import type { EventSpec } from "../3-plan/event.js";
import type { PlanSpec } from "../3-plan/plan.js";
import type { Team } from "../3-plan/world.js";
import type { Abilities } from "../4-timeline/ability.js";
import { arrangements } from "./arrange.js";
import { Climb, type Judged, type Manner } from "./climb.js";
import { draftOf } from "./draft.js";
import { draftKey } from "./numbers.js";

/** What a suggestion is among those for its event. */
export type Sort = "best" | "simplest" | "longer" | "bolder" | "other";

/** A plan the search proposes. */
export interface Suggestion extends Judged {
  /** Who with whom. */
  readonly kind: string;
  readonly sort: Sort;
}

export interface Progress {
  /** Steps done. */
  readonly steps: number;
  /** The best short plan first; then the simplest, one of any length, one that takes risks, where they differ and gain; then other kinds. */
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

export interface Wish extends Partial<Manner> {
  readonly seed?: number;
  /** Plans of the event that are there: where the search can read their shape, it begins there too. */
  readonly from?: readonly PlanSpec[];
}

/** A dozen days tell the middle well enough to look for it. */
const usualDays = 12;
const sampled = 0.75;
/** Of days: a plan in which somebody misses or drops more often is not called sound. */
export const usualRisk = 1 / 3;

/**
 * Looks for plans of an event. Anytime: each value it yields is the best so far, and it goes on until it is not asked
 * again. The same seed gives the same plans after the same steps.
 */
export function* suggest(event: EventSpec, team: Team, abilities: Abilities, constants: Constants, wish: Wish = {}): Generator<Progress, void, void> {
  const { seed = 1, from = [], target = null, days = usualDays, risk = usualRisk, anyLength = false } = wish;
  // So few days are a sample: what is borne of many is looked for with a margin.
  const manner: Manner = { target, days, risk: sampled * risk, anyLength };
  let steps = 0;
  const climbs: Kind[] = [];
  const progress = (): Progress => ({ steps, suggestions: listed(climbs, event, anyLength) });
  const own = from.flatMap((plan) => {
    const draft = draftOf(plan, abilities);
    return draft ? [{ kind: `as in ${plan.name}`, draft }] : [];
  });
  const starts = [...own, ...arrangements(event, team, abilities, from[0]?.rules ?? [])];
  if (starts.length === 0 || noEnd(event) !== null) return;
  // One climb can be stuck where another is not: where there are few kinds, each is tried by several.
  for (let climber = 0; climber < Math.max(1, Math.ceil(climbers / starts.length)); climber += 1) {
    for (const { kind, draft } of starts) {
      const climb = new Climb(draft, abilities, constants, randomLcg(((seed + 101 * climber) % 9973) / 9973), manner);
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
    const order = [...climbs].sort((a, b) => heightOfClimb(a.climb) - heightOfClimb(b.climb)).slice(0, finalists);
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

interface Kind {
  readonly kind: string;
  readonly climb: Climb;
}

/** Less than this of the score is no gain worth a longer plan, or a risk. */
export const worthIt = 0.01;

function listed(climbs: readonly Kind[], event: EventSpec, anyLength: boolean): readonly Suggestion[] {
  const bestBy = (sort: Sort, of: (climb: Climb) => Judged): Suggestion[] => climbs.map(({ kind, climb }) => ({ kind, sort, ...of(climb) })).sort(byWorth);
  const [best, ...others] = onceEach(bestBy("best", ({ short, best: longest }) => (anyLength || (longest.worth.sound && !short.worth.sound) ? longest : short)));
  if (!best) return [];
  const gain = ({ worth }: Judged): number => (event.score === "time" ? best.worth.middle - worth.middle : worth.middle - best.worth.middle) / Math.max(1, Math.abs(best.worth.middle));
  const [simplest] = bestBy("simplest", (climb) => climb.simplest);
  const [longer] = bestBy("longer", (climb) => climb.best);
  const [bolder] = bestBy("bolder", (climb) => climb.daring).sort((a, b) => a.worth.cost - b.worth.cost);
  const beside = [
    ...(simplest?.worth.sound && best.worth.sound ? [simplest] : []),
    ...(longer?.worth.sound && gain(longer) >= worthIt ? [longer] : []),
    ...(bolder && !bolder.worth.sound && best.worth.sound && gain(bolder) >= worthIt ? [bolder] : []),
  ];
  return others.length + beside.length === 0 ? [best] : unlike([best, ...beside, ...others.map((one) => ({ ...one, sort: "other" as const }))]);
}

/** A kind once, the first of it. */
function onceEach(sorted: readonly Suggestion[]): readonly Suggestion[] {
  return sorted.filter(({ kind }, at) => sorted.findIndex((one) => one.kind === kind) === at);
}

/** Each plan once. */
function unlike(suggestions: readonly Suggestion[]): readonly Suggestion[] {
  const keys = suggestions.map(({ draft }) => draftKey(draft));
  return suggestions.filter((_, at) => keys.indexOf(keys[at] ?? "") === at);
}

function byWorth(a: Suggestion, b: Suggestion): number {
  return Number(b.worth.sound) - Number(a.worth.sound) || a.worth.cost - b.worth.cost;
}

/** What a climb promises: its best sound plan, or the least cost it met. */
function heightOfClimb({ short, best, daring }: Climb): number {
  return Math.min(...[short, best, daring].map(({ worth }) => worth.cost));
}
