import type { Document } from "../1-text/document.js";
import type { EventSpec } from "../3-plan/event.js";
import type { PlanSpec } from "../3-plan/plan.js";
import type { Team } from "../3-plan/world.js";
import type { Compiled } from "../compile.js";
import { noEnd, suggest, type Suggestion } from "../6-search/suggest.js";
import { wishesOf } from "../7-view/wishes.js";
import { barFor, betterThanOwn, mostBegun, ownPlans, type Proposal, proposals, teamFor } from "../7-view/proposals.js";

export interface SuggestRequest {
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
  /** On how many days a miss or a dropped hold is borne, 0…1. */
  readonly risk: number;
  /** The coach's own limits, a line each, as under a plan. */
  readonly wishes: string;
}

/** `sound`: a plan is there that keeps every rule and is seldom in trouble. */
export type Suggested =
  | {
      readonly ok: true;
      readonly proposals: readonly Proposal[];
      /** Why none is proposed. */ readonly nothing: string | null;
      readonly sound: boolean;
    }
  | { readonly ok: false; readonly reason: string };

/** Suggestions for an event, the best first; or why there are none. `report` is told the steps done. */
export function suggestions(
  asked: SuggestRequest,
  documents: readonly Document[],
  compiled: Compiled,
  report: (steps: number) => void,
): Suggested {
  const wanted = wantedIn(compiled, asked);
  if ("reason" in wanted) return { ok: false, reason: wanted.reason };
  const { event, team, from, target } = wanted;
  const wishes = wishesOf(asked.wishes, team);
  if ("reason" in wishes) return { ok: false, reason: wishes.reason };
  const { kept } = compiled;
  const own = ownPlans(compiled, event, team, from);
  const startMs = performance.now();
  // A better middle day may beat a target more often than what was looked for by it alone: half of the search is for either.
  const aims = target === null ? [null] : [target, null];
  let before = 0;
  const suggestions = aims.flatMap((aim, at): readonly Suggestion[] => {
    const wish = { seed: asked.seed, from: own.slice(0, mostBegun), target: aim, risk: asked.risk, ...wishes };
    const part = (at + 1) / aims.length;
    for (const progress of suggest(event, team, kept.abilities, kept.world.constants, wish)) {
      report(before + progress.steps);
      const late = performance.now() - startMs > part * asked.seconds * 1_000;
      if (progress.steps < asked.steps / aims.length && !late) continue;
      before += progress.steps;
      return progress.suggestions;
    }
    return [];
  });
  if (suggestions.length === 0)
    return {
      ok: false,
      reason: `No plan for ${event.name} with team ${team.name}: the event's pairs, stations and holds, and the pairs that are to stay, leave nobody who may work.`,
    };
  const proposed = proposals(suggestions, asked.count, kept, documents, { risk: asked.risk, target });
  // A plan of the coach's own is never answered with a worse one.
  const { better, nothing } =
    target === null ? betterThanOwn(proposed, barFor(own, wishes), kept, asked.risk) : { better: proposed, nothing: null };
  return { ok: true, proposals: nothing === null ? better : [], nothing, sound: nothing !== null || better.some((one) => one.sound) };
}

/** Suggestions as text that can be put into a document. */
export function suggestedText({ proposals: found, nothing, sound }: Extract<Suggested, { ok: true }>): string {
  if (nothing !== null) return `// ${nothing}\n`;
  const shown = found.map(
    ({ score, kind, reasons, text }) => `// ${score}: ${kind}\n${reasons.map((reason) => `// ${reason}\n`).join("")}${text}`,
  );
  const warned = sound
    ? ""
    : "// No plan was found that keeps every rule and is seldom in trouble. The nearest, and what is wrong with each:\n";
  return warned + shown.join("\n");
}

/** Seconds of 14:00, or the number of reps. */
function scoreOf(text: string): number {
  return /^\d+(:[0-5]?\d){0,2}$/.test(text) ? text.split(":").reduce((sum, part) => sum * 60 + Number(part), 0) : Number.NaN;
}

interface Wanted {
  readonly event: EventSpec;
  readonly team: Team;
  /** The plan that was named in place of an event. */
  readonly from: PlanSpec | null;
  readonly target: number | null;
}

/** What the words of the command mean in a notebook; or why they mean nothing. */
function wantedIn(compiled: Compiled, asked: SuggestRequest): Wanted | { readonly reason: string } {
  const { world } = compiled.kept;
  const plans = [...compiled.documents.values()].flatMap(({ blocks }) => blocks.flatMap(({ plan }) => plan?.resolved.plan ?? []));
  const from = plans.find(({ name }) => name === asked.name) ?? null;
  const event = from?.event ?? world.events.get(asked.name);
  const known = (what: string, names: Iterable<string>): string => `${what}s here: ${[...names].join(", ") || "none"}.`;
  if (!event) return { reason: `There is no event or plan “${asked.name}”. ${known("Event", world.events.keys())}` };
  const team = from?.team ?? teamFor(world, asked.team, event);
  if (!team && asked.team === null) return { reason: "There is no team here." };
  if (!team) return { reason: `There is no team “${asked.team}”. ${known("Team", world.teams.keys())}` };
  const target = asked.target === null ? null : scoreOf(asked.target);
  if (Number.isNaN(target)) return { reason: `“${asked.target}” is no score: write a time, 14:00, or reps, 136.` };
  if (asked.target !== null && asked.target.includes(":") !== (event.score === "time")) {
    const form = event.score === "time" ? "a time, 14:00" : "a number of reps, 136";
    return { reason: `${event.name} is scored by ${event.score}: write ${form}, not ${asked.target}.` };
  }
  const never = noEnd(event) ?? unreadIn(event, compiled);
  return never === null ? { event, team, from, target } : { reason: never };
}

/** Why an event cannot be kept: a line of it that is not read; null where all are. */
function unreadIn({ name }: EventSpec, { documents }: Compiled): string | null {
  const blocks = [...documents.values()].flatMap((one) => one.blocks);
  const own = blocks.find(({ block: { read } }) => read.line.kind === "event" && read.line.name.text === name);
  const error = own?.findings.find(({ severity }) => severity === "error");
  if (!own || !error) return null;
  const line = own.block.text.slice(error.span.from, error.span.to);
  return `“${line}” of ${name} is wrong, and no plan could keep it: ${error.message} “rotaline check” shows where.`;
}
