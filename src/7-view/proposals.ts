import { counted, percent } from "../0-base/quantity.js";
import type { Document } from "../1-text/document.js";
import type { World } from "../3-plan/world.js";
import type { Abilities } from "../4-timeline/ability.js";
import { mostMiss, verdictOn } from "../6-search/check.js";
import { textOf } from "../6-search/draft.js";
import { besideTheBest, reasonsFor } from "../6-search/reasons.js";
import type { Progress } from "../6-search/suggest.js";
import { scoreWords } from "./block-answers.js";

/** A suggested plan as it is shown: what it comes to, why, and its text. */
export interface Proposal {
  readonly kind: string;
  readonly score: string;
  readonly sound: boolean;
  readonly reasons: readonly string[];
  readonly text: string;
}

const names = ["First", "Second", "Third", "Fourth", "Fifth"];

/** Of the rules that a suggestion breaks, those that are told. */
const mostErrors = 3;

/** The best of a search's suggestions. With a notebook, each has been judged in it; without, the search's word stands alone. */
export function proposals({ suggestions }: Progress, count: number, { world, abilities }: { readonly world: World; readonly abilities: Abilities }, notebook: readonly Document[] | null): readonly Proposal[] {
  const free = names.filter((name) => !world.plans.has(name));
  const [best] = suggestions;
  return suggestions.slice(0, count).map((suggestion, at): Proposal => {
    const { kind, draft, worth } = suggestion;
    const text = textOf(draft, free[at] ?? `Idea${at + 1}`);
    const verdict = notebook && verdictOn(text, notebook);
    const chance = worth.chance === null ? [] : [`Beats the target on ${percent(worth.chance)} of days.`];
    const errors = verdict?.findings.filter(({ severity }) => severity === "error").map(({ message }) => `It breaks a rule: ${message}`) ?? [];
    const judged = verdict ? [`A miss or a drop in the riskiest turn on ${percent(verdict.miss)} of days; ${counted(verdict.findings.length, "finding")}.`, ...errors.slice(0, mostErrors)] : [];
    const why = best && best !== suggestion ? besideTheBest(suggestion, best) : reasonsFor(suggestion, suggestions.slice(1), abilities, world.constants);
    const score = scoreWords({ kind: draft.event.score, value: worth.score, finished: true });
    const refused = verdict !== null && (verdict.miss > mostMiss || verdict.findings.some(({ severity }) => severity === "error"));
    return { kind, score, sound: worth.sound && !refused, reasons: [...chance, ...why, ...judged], text };
  });
}

/** The team that plans are looked for: by name, or the largest. */
export function teamFor({ teams }: World, name: string | null) {
  return name === null ? [...teams.values()].sort((a, b) => b.athletes.length - a.athletes.length)[0] : teams.get(name);
}
