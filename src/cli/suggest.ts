import { clock, counted } from "../0-base/quantity.js";
import type { Document } from "../1-text/document.js";
import type { Compiled } from "../compile.js";
import { verdictOn } from "../6-search/check.js";
import { textOf } from "../6-search/draft.js";
import { reasonsFor } from "../6-search/reasons.js";
import { suggest, type Progress } from "../6-search/suggest.js";

export interface Asked {
  readonly event: string;
  /** Null: the largest team of the notebook. */
  readonly team: string | null;
  readonly steps: number;
  readonly seed: number;
  readonly count: number;
}

/** Suggestions for an event as lines of text; or why there are none. */
export function suggestions(asked: Asked, documents: readonly Document[], compiled: Compiled, report: (progress: Progress) => void): { readonly ok: true; readonly output: string } | { readonly ok: false; readonly reason: string } {
  const { world, abilities } = compiled.kept;
  const event = world.events.get(asked.event);
  if (!event) return { ok: false, reason: `There is no event “${asked.event}”. Events here: ${[...world.events.keys()].join(", ")}.` };
  const team = asked.team === null ? [...world.teams.values()].sort((a, b) => b.athletes.length - a.athletes.length)[0] : world.teams.get(asked.team);
  if (!team) return { ok: false, reason: asked.team === null ? "There is no team here." : `There is no team “${asked.team}”. Teams here: ${[...world.teams.keys()].join(", ")}.` };
  let last: Progress = { steps: 0, suggestions: [] };
  for (const progress of suggest(event, team, abilities, world.constants, asked.seed)) {
    last = progress;
    report(progress);
    if (progress.steps >= asked.steps) break;
  }
  if (last.suggestions.length === 0) return { ok: false, reason: `No plan for ${asked.event} with team ${team.name}: the event's pairs, stations and holds leave nobody who may work.` };
  const freeNames = ["First", "Second", "Third", "Fourth", "Fifth"].filter((name) => !world.plans.has(name));
  const shown = last.suggestions.slice(0, asked.count).map((suggestion, at) => {
    const text = textOf(suggestion.draft, freeNames[at] ?? `Idea${at + 1}`);
    const others = last.suggestions.filter((other) => other !== suggestion);
    const verdict = verdictOn(text, documents);
    const score = event.score === "time" ? clock(suggestion.worth.score) : counted(suggestion.worth.score, "rep");
    const comments = [`${score}: ${suggestion.kind}`, ...(at === 0 ? reasonsFor(suggestion, others, abilities, world.constants) : []), ...(verdict ? [`A miss in the riskiest turn on ${Math.round(verdict.miss * 100)} % of days; ${counted(verdict.findings.length, "finding")}.`] : [])];
    return `${comments.map((line) => `// ${line}\n`).join("")}${text}`;
  });
  return { ok: true, output: shown.join("\n") };
}
