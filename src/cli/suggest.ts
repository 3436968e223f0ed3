import type { Document } from "../1-text/document.js";
import type { Compiled } from "../compile.js";
import { type Progress, suggest } from "../6-search/suggest.js";
import { proposals, teamFor } from "../7-view/proposals.js";

export interface Asked {
  readonly event: string;
  /** Null: the largest team of the notebook. */
  readonly team: string | null;
  readonly steps: number;
  readonly seed: number;
  readonly count: number;
}

export type Suggested = { readonly ok: true; readonly output: string } | { readonly ok: false; readonly reason: string };

/** Suggestions for an event as text that can be put into a document; or why there are none. */
export function suggestions(asked: Asked, documents: readonly Document[], { kept }: Compiled, report: (progress: Progress) => void): Suggested {
  const { world, abilities } = kept;
  const event = world.events.get(asked.event);
  if (!event) return { ok: false, reason: `There is no event “${asked.event}”. Events here: ${[...world.events.keys()].join(", ")}.` };
  const team = teamFor(world, asked.team);
  if (!team) return { ok: false, reason: asked.team === null ? "There is no team here." : `There is no team “${asked.team}”. Teams here: ${[...world.teams.keys()].join(", ")}.` };
  let last: Progress = { steps: 0, suggestions: [] };
  for (const progress of suggest(event, team, abilities, world.constants, asked.seed)) {
    last = progress;
    report(progress);
    if (progress.steps >= asked.steps) break;
  }
  if (last.suggestions.length === 0) return { ok: false, reason: `No plan for ${asked.event} with team ${team.name}: the event's pairs, stations and holds leave nobody who may work.` };
  const shown = proposals(last, asked.count, kept, documents).map(({ score, kind, reasons, text }) => `// ${score}: ${kind}\n${reasons.map((reason) => `// ${reason}\n`).join("")}${text}`);
  return { ok: true, output: shown.join("\n") };
}
