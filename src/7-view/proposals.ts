import { clock, counted, percent } from "../0-base/quantity.js";
import type { Document } from "../1-text/document.js";
import type { EventSpec } from "../3-plan/event.js";
import { subjectKey } from "../3-plan/names.js";
import type { PlanSpec } from "../3-plan/plan.js";
import type { Team, World } from "../3-plan/world.js";
import type { Abilities } from "../4-timeline/ability.js";
import { gainOf, runDays, spreadOf, troubledShare, unseenDays } from "../4-timeline/spread.js";
import { type Verdict, verdictOn } from "../6-search/check.js";
import { type BreakEven, breakEvensOf, noRepBreakEven, untestedIn } from "../4-timeline/sensitivity.js";
import { chanceToldOf, mostLate, worthOf } from "../6-search/cost.js";
import { planOf } from "../6-search/draft.js";
import { planNameFor, textOf } from "../6-search/draft-text.js";
import { allNumbers, mostNumbers } from "../6-search/numbers.js";
import { amount, asGood, besideTheBest, reasonsFor, troubleWords } from "../6-search/reasons.js";
import { type Sort, type Suggestion, usualRisk, worthIt } from "../6-search/suggest.js";
import type { AnsweredNotebook } from "./answered-block.js";
import { dayScore } from "./spread-words.js";
import type { Wishes } from "./wishes.js";
import { breakEvenLines, hangsOn, noRepLine } from "./why-words.js";

/** A suggested plan as it is shown: what it comes to, why, and its text. */
export interface Proposal {
  readonly kind: string;
  readonly score: string;
  /** s, or reps, of the middle day. */
  readonly middle: number;
  readonly sound: boolean;
  readonly reasons: readonly string[];
  readonly text: string;
}

const said: Readonly<Record<Sort, string>> = {
  best: "",
  gentler: "gentler: ",
  simplest: "the simplest: ",
  longer: "longer: ",
  bolder: "bolder: ",
  other: "",
};

/** Of the rules that a suggestion breaks, those that are told. */
const mostErrors = 3;

interface Notebook {
  readonly world: World;
  readonly abilities: Abilities;
}

/** Suggestions that are judged beyond those that are shown: of eight athletes there are a hundred kinds. */
const spare = 2;

/** The best of a search's suggestions. With documents, each has been judged among them; without, the search's word stands alone. */
export function proposals(
  suggestions: readonly Suggestion[],
  count: number,
  { world, abilities }: Notebook,
  documents: readonly Document[] | null,
  { risk = usualRisk, target = null }: { readonly risk?: number; readonly target?: number | null } = {},
): readonly Proposal[] {
  const inOrder = judgedAmong(suggestions.slice(0, count + spare), { world, abilities }, documents, risk, target);
  const first = target === null ? shorterAndBetter(inOrder) : inOrder[0];
  const judged = first ? [first, ...inOrder.filter((one) => one !== first)] : inOrder;
  const offered = first && documents ? judged.filter((one) => one === first || isOffer(one, first)) : judged;
  const shown = choicesAmong(offered).slice(0, count);
  const fewest = Math.min(...shown.map(({ suggestion }) => allNumbers(suggestion.draft)));
  return shown.map((one): Proposal => {
    const { suggestion, text, verdict, middle, troubled, faults, chance: beats } = one;
    const { kind, sort, draft, worth } = suggestion;
    const chance = beats === null ? [] : [`Beats the target on ${percent(beats)} of days.`];
    const others = judged.map((other) => other.suggestion).filter((other) => other !== suggestion);
    const why =
      first && one !== first
        ? besideTheBest(suggestion, one, first.suggestion, first)
        : documents
          ? reasonsFor(suggestion, others, abilities, world.constants)
          : [];
    const asked = one === first && documents ? whatWouldTell(suggestion, others, { world, abilities }) : [];
    const reasons = [
      ...faults,
      ...chance,
      ...why,
      ...asked,
      ...(verdict && faults.length === 0
        ? [...sometimesLate(verdict.spread), howOften(draft.event, troubled, one === first ? null : (first?.troubled ?? null))]
        : []),
      toRemember(suggestion),
    ];
    return {
      kind: `${one === first || (sort === "simplest" && allNumbers(draft) > fewest) ? "" : said[sort]}${kind}`,
      score: scoreWords(draft.event, worth.score, middle),
      middle,
      sound: worth.sound && faults.length === 0,
      reasons,
      text,
    };
  });
}

/** Suggestions with what the judge says of them: those without a fault first, then those that beat the target most often. */
function judgedAmong(
  suggestions: readonly Suggestion[],
  { world, abilities }: Notebook,
  documents: readonly Document[] | null,
  risk: number,
  target: number | null,
): readonly JudgedSuggestion[] {
  const taken = new Set(world.plans.keys());
  return suggestions
    .map((suggestion): JudgedSuggestion => {
      const { draft, worth } = suggestion;
      const name = planNameFor(draft, (one) => taken.has(one));
      taken.add(name);
      const text = textOf(draft, name);
      const verdict = documents && verdictOn(text, documents);
      const faults = verdict ? faultsOf(verdict, draft.event, risk) : [];
      return {
        suggestion,
        text,
        verdict,
        middle: verdict?.spread.p50 ?? worth.middle,
        troubled: verdict?.troubled ?? worth.troubled,
        faults,
        chance: target === null ? null : chanceToldOf(target, planOf(draft), abilities, world.constants),
      };
    })
    .sort(
      (one, other) =>
        Number(one.faults.length > 0) - Number(other.faults.length > 0) ||
        (other.chance ?? 0) - (one.chance ?? 0) ||
        (outOfTime(one) && outOfTime(other) ? one.middle - other.middle : 0),
    );
}

/** Of plans that the cap cuts, all faulty, the quickest is the nearest. */
function outOfTime({ verdict, suggestion: { draft } }: JudgedSuggestion): boolean {
  return verdict !== null && draft.event.score === "time" && verdict.spread.finishes < 1 - mostLate;
}

/** What would have to be true for another pairing to win, and which test would tell most. */
function whatWouldTell(best: Suggestion, others: readonly Suggestion[], { world: { constants }, abilities }: Notebook): readonly string[] {
  const plan = planOf(best.draft);
  const rival = others.find(({ kind, worth }) => kind !== best.kind && worth.sound);
  const against = rival ? planOf(rival.draft) : null;
  const inStep = rival && against ? noRepLine(noRepBreakEven(plan, against, abilities, constants), rival.kind) : null;
  const turning = rival && against && !inStep ? firstTurning(breakEvensOf(plan, against, abilities, constants)) : null;
  const turns = rival && turning ? breakEvenLines([turning], best.kind, rival.kind) : [];
  const hanging = hangsOn(untestedIn(plan, abilities, constants), plan.event.score);
  return [...(inStep ? [inStep] : turns), ...(hanging ? [hanging] : [])];
}

function firstTurning(found: Iterable<BreakEven>): BreakEven | null {
  for (const one of found) if (one.at !== null) return one;
  return null;
}

interface JudgedSuggestion {
  readonly suggestion: Suggestion;
  readonly text: string;
  readonly verdict: Verdict | null;
  readonly middle: number;
  readonly troubled: number;
  readonly faults: readonly string[];
  /** To beat the target, on days that the search has not seen; null without one. */
  readonly chance: number | null;
}

/**
 * The first; or one that asks less of anybody's head and is as good, or no more and is better, on the days of the judge, of which the
 * search saw but a few.
 */
function shorterAndBetter([first, ...others]: readonly JudgedSuggestion[]): JudgedSuggestion | undefined {
  return others.reduce<JudgedSuggestion | undefined>((best, one) => {
    if (!best || one.faults.length > 0 || one.suggestion.sort === "bolder") return best;
    const fewer = allNumbers(best.suggestion.draft) - allNumbers(one.suggestion.draft);
    const gain = gainOf(one.suggestion.draft.event.score, one.middle, best.middle);
    return fewer >= 0 && gain > (fewer > 0 ? -asGood : 0) ? one : best;
  }, first);
}

/** So much of the score behind the first is nothing that a coach would take. */
const noOffer = 0.15;

/** Without those that are to one before them as one egg to another: the same people, as many numbers, as good. */
function choicesAmong(judged: readonly JudgedSuggestion[]): readonly JudgedSuggestion[] {
  return judged.filter(
    (one, at) =>
      !judged
        .slice(0, at)
        .some(
          ({ suggestion, middle }) =>
            suggestion.kind === one.suggestion.kind &&
            allNumbers(suggestion.draft) === allNumbers(one.suggestion.draft) &&
            Math.abs(middle - one.middle) < asGood,
        ),
  );
}

/** Whether a suggestion is worth a look on the days of the judge: a longer or bolder plan has to gain, others may lose a little. */
function isOffer({ suggestion: { sort, draft }, middle, faults }: JudgedSuggestion, first: JudgedSuggestion): boolean {
  const gain = gainOf(draft.event.score, middle, first.middle) / Math.max(1, Math.abs(first.middle));
  if (sort === "bolder") return gain >= worthIt;
  if (sort === "longer" && gain < worthIt) return false;
  return first.faults.length > 0 || (faults.length === 0 && gain > -noOffer);
}

function scoreWords({ score, capS }: EventSpec, onPaper: number, middle: number): string {
  const onDay = `${dayScore(score, score === "reps" ? Math.round(middle) : middle)}${score === "reps" ? " reps" : ""} on the middle day`;
  if (score === "time" && capS !== null && middle > capS) return `${onDay}, past the cap of ${clock(capS)}`;
  return `${onDay}, ${score === "reps" ? onPaper : clock(onPaper)} on paper`;
}

/** What must not be: rules that are broken, work that is not done, more trouble than is borne. */
function faultsOf({ findings, spread, troubled }: Verdict, event: EventSpec, risk: number): readonly string[] {
  // A stage that its own time cuts is an outcome of a coach's plan, and none to be proposed.
  const errors = findings
    .filter(({ severity, rule }) => severity === "error" || rule === "stage-cut")
    .map(({ message }) => `It breaks a rule: ${message}`);
  return [
    ...errors.slice(0, mostErrors),
    ...(spread.finishes < 1 - mostLate ? [tooLong(spread, event)] : []),
    ...(troubled > risk
      ? [`Somebody ${troubleWords(event, "s")} on ${percent(troubled)} of days, more than the ${percent(risk)} that are accepted.`]
      : []),
  ];
}

/** Of days: so few past the cap are not worth a word. */
const fewLate = 0.02;

function sometimesLate({ finishes }: Verdict["spread"]): readonly string[] {
  return finishes < 1 - fewLate ? [`It is done inside the cap on ${percent(finishes)} of days.`] : [];
}

/** A plan that the cap cuts on many days, and what would have to give. */
function tooLong({ finishes, p50 }: Verdict["spread"], event: EventSpec): string {
  const often =
    finishes === 0 ? "It is not done inside the cap on any day." : `It is done inside the cap on ${percent(finishes)} of days only.`;
  const lacks = Math.ceil(p50 - (event.capS ?? p50));
  return Number.isFinite(lacks) && lacks > 0 ? `${often} It would take a cap ${amount(lacks, event)} longer on the middle day.` : often;
}

/** How much more or less often somebody is in trouble than with the first plan before that is told too. */
const notable = 0.05;

function howOften(event: EventSpec, troubled: number, ofFirst: number | null): string {
  const trouble = troubleWords(event, "s");
  const beside = ofFirst !== null && Math.abs(troubled - ofFirst) >= notable ? `; with the first on ${percent(ofFirst)}` : "";
  return troubled === 0
    ? `Nobody ${trouble} on any of the days drawn${beside}.`
    : `Somebody ${trouble} on ${percent(troubled)} of days${beside}.`;
}

function toRemember({ draft }: Suggestion): string {
  const numbers = allNumbers(draft);
  if (numbers === 0) return "Nothing to remember but the order.";
  const where = draft.blocks.some(({ lanes }) => lanes.length > 1) ? "lane" : "stage";
  return numbers === mostNumbers(draft)
    ? `To remember: ${counted(numbers, "number")}.`
    : `To remember: ${counted(numbers, "number")}, at most ${mostNumbers(draft)} in one ${where}.`;
}

/** Plans of the coach's own for an event and a team: the search begins at them. `first`: the one that was asked about. */
export function ownPlans(
  { documents }: AnsweredNotebook,
  event: EventSpec,
  team: Team,
  first: PlanSpec | null = null,
): readonly PlanSpec[] {
  const plans = [...documents.values()].flatMap(({ blocks }) => blocks.flatMap(({ plan }) => plan?.resolved.plan ?? []));
  return plans
    .filter((plan) => plan.event.name === event.name && plan.team.name === team.name)
    .sort((a, b) => Number(b === first) - Number(a === first));
}

/** Plans of the coach's own that the search begins at. */
export const mostBegun = 3;

/** Plans that a proposal has to beat: the coach's own, which need not keep limits that are wished now. */
export function barFor(own: readonly PlanSpec[], { rules, pairs }: Wishes): readonly PlanSpec[] {
  return rules.length + pairs.length > 0 ? [] : own;
}

/** What is proposed, without what is worse than a sound plan of the coach's own; where nothing is left, `nothing` says so. */
export function betterThanOwn(
  proposed: readonly Proposal[],
  own: readonly PlanSpec[],
  notebook: Notebook,
  risk = usualRisk,
): { readonly better: readonly Proposal[]; readonly nothing: string | null } {
  const best = bestOwn(own, notebook, risk);
  if (!best?.sound) return { better: proposed, nothing: null };
  const better = proposed.filter(({ middle, sound }) => sound && gainOf(best.kind, middle, best.middle) > 0);
  return {
    better,
    nothing:
      better.length > 0
        ? null
        : `Nothing was found that is better than ${best.name}, ${dayScore(best.kind, best.middle)} on the middle day.`,
  };
}

/** Days that a plan of the coach's own is judged by. */
const daysOfOwn = 200;

/** The best of the notebook's own plans for an event, by its middle day; of those that keep the rules with little trouble, if any does. */
function bestOwn(plans: readonly PlanSpec[], { abilities, world }: Notebook, risk: number) {
  const judged = plans.map((plan) => {
    const days = runDays(plan, abilities, world.constants, unseenDays(daysOfOwn));
    const keepsRules = worthOf(plan, abilities, world.constants, { days: 0, risk: 1, target: null })?.sound ?? false;
    return { name: plan.name, middle: spreadOf(days).p50, sound: keepsRules && troubledShare(days) <= risk, kind: days.kind };
  });
  return judged.sort((a, b) => Number(b.sound) - Number(a.sound) || gainOf(a.kind, b.middle, a.middle))[0];
}

/** The team that plans are looked for: by name; else the one with most tests of what the event asks, the largest of several. */
export function teamFor({ teams, abilities }: World, name: string | null, event: EventSpec): Team | undefined {
  if (name !== null) return teams.get(name);
  const asked = event.stages.flatMap(({ items }) => items.map(({ movement }) => subjectKey(movement)));
  const tested = ({ athletes }: Team): number =>
    athletes.reduce((sum, athlete) => sum + asked.filter((movement) => abilities.get(athlete.name)?.has(movement)).length, 0);
  return [...teams.values()].sort((a, b) => tested(b) - tested(a) || b.athletes.length - a.athletes.length)[0];
}
