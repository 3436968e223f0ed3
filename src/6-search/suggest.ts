import { randomLcg } from "d3-random";
import type { Constants } from "../3-plan/assumptions.js";
import type { RuleLine } from "../3-plan/ast.js";
import { areSideBySide, type EventSpec } from "../3-plan/event.js";
import { isPairOf, type PlanSpec, workingIn } from "../3-plan/plan.js";
import type { Team } from "../3-plan/world.js";
import type { Abilities } from "../4-timeline/ability.js";
import { gainOf } from "../4-timeline/spread.js";
import { isLong } from "../5-findings/rules/opens-hard.js";
import { type Arrangement, arrangements } from "./arrange.js";
import { Climb, type Manner } from "./climb.js";
import type { Random } from "./neighbour.js";
import type { JudgedDraft } from "./shelf.js";
import { draftOf } from "./draft.js";
import { kindOf } from "./kind.js";
import { allNumbers, draftKey } from "./numbers.js";
import { opensLarge } from "./set-size.js";

/** What a suggestion is among those for its event. */
export type Sort = "best" | "gentler" | "simplest" | "longer" | "bolder" | "other";

/** A plan the search proposes. */
export interface Suggestion extends JudgedDraft {
  /** Who with whom. */
  readonly kind: string;
  readonly sort: Sort;
}

export interface Progress {
  /** Steps done. */
  readonly steps: number;
  /**
   * The best short plan first; one that opens gently, where that does not; then the simplest, one of any length, one that
   * takes risks, where they differ and gain; then other kinds. As the search stands when this is read, which costs some runs.
   */
  readonly suggestions: readonly Suggestion[];
}

/** Steps between two looks at the clock. */
const stepsAtOnce = 20;
/** Kinds that get a first look; of more, as of the 105 pairings of eight, those whose plainest plan costs least. */
const openedFirst = 8;
/** Kinds that are climbed, the best after a first look at all. */
const finalists = 3;
/** A kind so far behind after a first look, as a part of the score, is not climbed. */
const farBehind = 0.2;
/** Climbs at least, whatever the kinds. */
const climbers = 3;
/** Climbs whose best are looked at again to be listed: of more, those that promise most. */
const mostListed = 5;
/** One round in so many has a look at a kind that is behind. */
const otherTurns = 4;

export interface Wish extends Partial<Manner> {
  readonly seed?: number;
  /** Plans of the event that are there: where the search can read their shape, it begins there too. */
  readonly from?: readonly PlanSpec[];
  /** The coach's own limits, besides those of the event and of the first of these plans; and pairs that stay together. */
  readonly rules?: readonly RuleLine[];
  readonly pairs?: readonly (readonly string[])[];
}

/** So many days tell the middle well enough to look for it; what is kept has a second look on more. */
export const usualDays = 12;
/** Of days: a plan in which somebody misses or drops more often is not called sound. */
export const usualRisk = 1 / 3;

/**
 * Looks for plans of an event. Anytime: each value it yields is the best so far, and it goes on until it is not asked
 * again. The same seed gives the same plans after the same steps.
 */
export function* suggest(
  event: EventSpec,
  team: Team,
  abilities: Abilities,
  constants: Constants,
  wish: Wish = {},
): Generator<Progress, void, void> {
  const { seed = 1, from = [], target = null, days = usualDays, risk = usualRisk, anyLength = false, rules = [], pairs = [] } = wish;
  const manner: Manner = { target, days, risk, anyLength, otherCasts: pairs.length === 0 };
  let steps = 0;
  const climbs: Kind[] = [];
  let gentle: Kind | null = null;
  const progress = (): Progress => ({
    steps,
    get suggestions() {
      return listed(climbs, gentle, event, anyLength);
    },
  });
  const own = from.flatMap((plan) => {
    const draft = draftOf(plan, abilities);
    return draft ? [{ changed: plan.name, draft: { ...draft, rules: [...draft.rules, ...rules] } }] : [];
  });
  const paired = ({ draft }: Pick<Arrangement, "draft">): boolean => pairs.every((two) => draft.pairs.some((pair) => isPairOf(pair, two)));
  const fresh = arrangements(event, team, abilities, [...(from[0]?.rules ?? []), ...rules]);
  const starts = [...own, ...fresh.map(({ draft }) => ({ changed: null, draft }))].filter(paired);
  if (starts.length === 0 || noEnd(event) !== null) return;
  const random = (nth: number): Random => randomLcg(((seed + 101 * nth) % 9973) / 9973);
  for (const { changed, draft } of starts) {
    const climb = new Climb(draft, abilities, constants, random(0), manner);
    climbs.push({ changed, climb });
    // A first plan soon: the others are looked at when all stand side by side.
    if (climbs.length === 1 || changed !== null) climb.probe();
    yield progress();
  }
  for (const { climb } of [...climbs].sort(byPromise).slice(0, openedFirst)) {
    if (!climb.opened) climb.probe();
    yield progress();
  }
  for (const { climb } of nearest(climbs)) {
    climb.open();
    yield progress();
  }
  const leaders = nearest(climbs);
  const [leader] = leaders;
  if (leader) for (const _ of leader.climb.begin()) yield progress();
  // One climb can be stuck where another is not: where there are few kinds, each is climbed several times.
  for (let nth = 1; nth < Math.ceil(climbers / leaders.length); nth += 1)
    for (const { changed, climb } of leaders) climbs.push({ changed, climb: climb.another(nth, random(nth)) });
  if (leader && isLong(event)) gentle = { changed: leader.changed, climb: leader.climb.gentler(random(climbers)) };
  for (;;) {
    for (const { climb } of [...inTurn(climbs, steps), ...(gentle ? [gentle] : [])]) {
      climb.climb(stepsAtOnce);
      steps += stepsAtOnce;
      yield progress();
    }
  }
}

/** Who climbs next: the leader gets as much as the two behind it together; now and then another has a look. */
function inTurn(climbs: readonly Kind[], steps: number): readonly Kind[] {
  const order = [...climbs].sort(byPromise);
  const others = order.slice(finalists);
  const other = others[Math.floor(steps / stepsAtOnce) % Math.max(1, others.length * otherTurns)];
  return [...order.slice(0, 1), ...order.slice(0, finalists), ...(other ? [other] : [])];
}

/** What stands after so many steps; nothing where no plan can be looked for. */
export function suggestedAfter(
  steps: number,
  ...[event, team, abilities, constants, wish]: Parameters<typeof suggest>
): readonly Suggestion[] {
  for (const progress of suggest(event, team, abilities, constants, wish)) if (progress.steps >= steps) return progress.suggestions;
  return [];
}

/** The best by a first look, those that are not far behind. */
function nearest(climbs: readonly Kind[]): readonly Kind[] {
  const [first, ...others] = [...climbs].sort(byPromise);
  if (!first) return [];
  const { cost, score } = first.climb.riskier.worth;
  const near = others.filter(({ climb }) => climb.riskier.worth.cost <= cost + farBehind * Math.abs(score));
  return [first, ...near.slice(0, finalists - 1)];
}

function byPromise(a: Kind, b: Kind): number {
  return a.climb.riskier.worth.cost - b.climb.riskier.worth.cost;
}

/** Why no plan of an event can be looked for; null where one can. */
export function noEnd(event: EventSpec): string | null {
  const { name, stages, score, capS, windows } = event;
  if (stages.length === 0) return `${name} has no stage yet: there is no work to share out.`;
  if (score === "reps" && capS === null) return `${name} is for reps and has no cap: write when it ends.`;
  const [endless, another] = windows.length > 0 ? [] : stages.filter(({ target }) => target === null);
  if (!endless || !another) return null;
  const both = `${endless.name} and ${another.name} both run to the cap: a plan does them side by side, each in a lane of its own`;
  if (!areSideBySide({ stages, windows }))
    return `${both}, and beside stages with a target no such plans are looked for. Write the lanes yourself, or give ${endless.name} a target.`;
  const working = workingIn(event);
  const most = working === null ? stages.length : working.most * (working.pairs ? 2 : 1);
  return most < stages.length ? `${both}, but only ${most} may work at once. Give ${endless.name} a target.` : null;
}

interface Kind {
  /** The plan it began at; null where it began at an arrangement. */
  readonly changed: string | null;
  readonly climb: Climb;
}

/** Less than this of the score is no gain worth a longer plan, or a risk. */
export const worthIt = 0.01;

function listed(all: readonly Kind[], gentle: Kind | null, event: EventSpec, anyLength: boolean): readonly Suggestion[] {
  const climbs = all
    .filter(({ climb }) => climb.opened)
    .sort(byPromise)
    .slice(0, mostListed);
  const told = ({ changed, climb }: Kind, sort: Sort, judged: JudgedDraft): Suggestion => {
    const one = climb.told(judged);
    return { kind: changed === null ? kindOf(one.draft) : `your plan ${changed}, changed`, sort, ...one };
  };
  const bestBy = (sort: Sort, of: (climb: Climb) => JudgedDraft, among = climbs): Suggestion[] =>
    among.map((kind) => told(kind, sort, of(kind.climb))).sort(byWorth);
  const [best, ...others] = onceEach(
    bestBy("best", ({ short, best: longest }) => (anyLength || (longest.sure.sound && !short.sure.sound) ? longest : short)),
  );
  if (!best) return [];
  const gain = ({ worth }: JudgedDraft): number =>
    gainOf(event.score, worth.middle, best.worth.middle) / Math.max(1, Math.abs(best.worth.middle));
  const leaders = climbs.slice(0, finalists);
  const [simplest] = bestBy("simplest", (climb) => climb.simplest, leaders);
  const [longer] = bestBy("longer", (climb) => climb.best, leaders);
  const [bolder] = bestBy("bolder", (climb) => climb.riskier, leaders).sort((a, b) => a.worth.cost - b.worth.cost);
  const gentler = gentle && opensLarge(best.draft) ? told(gentle, "gentler", gentle.climb.short) : null;
  const beside = [
    ...(gentler?.worth.sound && !opensLarge(gentler.draft) ? [gentler] : []),
    ...(simplest?.worth.sound && best.worth.sound && allNumbers(simplest.draft) < allNumbers(best.draft) ? [simplest] : []),
    ...(longer?.worth.sound && gain(longer) >= worthIt ? [longer] : []),
    ...(bolder && !bolder.worth.sound && isBearable(bolder, best) && gain(bolder) >= worthIt ? [bolder] : []),
  ];
  const another = others.filter(({ worth }) => worth.sound || !best.worth.sound);
  return unlike([best, ...beside, ...another.map((one) => ({ ...one, sort: "other" as const }))]);
}

/** Of days: trouble on more of them is no risk that is taken, but what happens; a plan that must be in trouble has no better. */
const mostBold = 0.6;

function isBearable({ worth }: Suggestion, best: Suggestion): boolean {
  return worth.troubled <= mostBold || !best.worth.sound;
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
