import type { Document } from "../1-text/document.js";
import type { Compiled } from "../compile.js";
import { noEnd, type Progress, suggest } from "../6-search/suggest.js";
import { proposals, teamFor } from "../7-view/proposals.js";

export interface Asked {
  /** An event, or a plan to better. */
  readonly name: string;
  /** A score to beat, as it is read: 14:00, or reps. */
  readonly target: string | null;
  /** Null: the largest team of the notebook. */
  readonly team: string | null;
  readonly steps: number;
  /** When to stop, whatever the steps; Infinity to do them all. */
  readonly seconds: number;
  readonly seed: number;
  readonly count: number;
}

/** `sound`: the first keeps every rule. */
export type Suggested = { readonly ok: true; readonly output: string; readonly sound: boolean } | { readonly ok: false; readonly reason: string };

/** Suggestions for an event as text that can be put into a document; or why there are none. */
export function suggestions(asked: Asked, documents: readonly Document[], compiled: Compiled, report: (progress: Progress) => void): Suggested {
  const { kept } = compiled;
  const { world, abilities } = kept;
  const plans = [...compiled.documents.values()].flatMap(({ blocks }) => blocks.flatMap(({ plan }) => plan?.resolved.plan ?? []));
  const from = plans.find(({ name }) => name === asked.name) ?? null;
  const event = from?.event ?? world.events.get(asked.name);
  if (!event) return { ok: false, reason: `There is no event or plan “${asked.name}”. Events here: ${[...world.events.keys()].join(", ")}.` };
  const team = from?.team ?? teamFor(world, asked.team);
  if (!team) return { ok: false, reason: asked.team === null ? "There is no team here." : `There is no team “${asked.team}”. Teams here: ${[...world.teams.keys()].join(", ")}.` };
  const target = asked.target === null ? null : scoreOf(asked.target);
  if (Number.isNaN(target)) return { ok: false, reason: `“${asked.target}” is no score: write a time, 14:00, or reps, 136.` };
  if (asked.target !== null && asked.target.includes(":") !== (event.score === "time")) {
    return { ok: false, reason: `${event.name} is scored by ${event.score}: write ${event.score === "time" ? "a time, 14:00" : "a number of reps, 136"}, not ${asked.target}.` };
  }
  const never = noEnd(event);
  if (never !== null) return { ok: false, reason: never };
  let last: Progress = { steps: 0, suggestions: [] };
  const untilMs = performance.now() + asked.seconds * 1_000;
  for (const progress of suggest(event, team, abilities, world.constants, { seed: asked.seed, from, target })) {
    last = progress;
    report(progress);
    if (progress.steps >= asked.steps || (performance.now() > untilMs && progress.suggestions.length > 0)) break;
  }
  if (last.suggestions.length === 0) return { ok: false, reason: `No plan for ${event.name} with team ${team.name}: the event's pairs, stations and holds leave nobody who may work.` };
  const proposed = proposals(last, asked.count, kept, documents);
  const shown = proposed.map(({ score, kind, reasons, text }) => `// ${score}: ${kind}\n${reasons.map((reason) => `// ${reason}\n`).join("")}${text}`);
  return { ok: true, output: shown.join("\n"), sound: proposed[0]?.sound ?? false };
}

/** Seconds of 14:00, or the number of reps. */
function scoreOf(text: string): number {
  return text.split(":").reduce((sum, part) => sum * 60 + (/^\d+$/.test(part) ? Number(part) : Number.NaN), 0);
}
