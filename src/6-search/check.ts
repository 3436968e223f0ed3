/**
 * The judge of what the search proposes. It stands apart: it sees the text alone, reads it as any document of the
 * notebook is read, and asks the rules and the clock, not the search.
 */
import type { Problem } from "../0-base/problem.js";
import type { Document } from "../1-text/document.js";
import { openDocument, type PlacedBlock } from "../3-plan/open.js";
import { type Entry, survey } from "../3-plan/world.js";
import { Evaluation } from "../4-timeline/evaluate.js";
import { runDays, spreadOf, type Spread, troubledShare, unseenDays } from "../4-timeline/spread.js";
import type { Timeline } from "../4-timeline/timeline.js";
import { type Finding, judge } from "../5-findings/judge.js";

export interface Verdict {
  readonly timeline: Timeline;
  readonly spread: Spread;
  /** Of days, on how many somebody misses or drops a hold anywhere in the plan. */
  readonly troubled: number;
  readonly findings: readonly Finding[];
}

/** What becomes of a plan's text in a notebook; null where it is no plan that can be timed. */
export function verdictOn(text: string, notebook: readonly Document[], draws = 200): Verdict | null {
  const { entry, evaluation, met } = readIn(text, notebook);
  if (entry?.read.line.kind !== "plan") return null;
  const { line } = entry.read;
  const plan = evaluation.planOf(entry, line);
  const spec = plan.resolved.plan;
  if (!spec || !plan.timeline) return null;
  const days = runDays(spec, evaluation.abilities, evaluation.world.constants, unseenDays(draws));
  const found = [...met, ...plan.resolved.problems, ...evaluation.problemsOf(line)];
  return {
    timeline: plan.timeline,
    spread: spreadOf(days),
    troubled: troubledShare(days),
    findings: judge({ line, text: entry.text, problems: found, plan, evaluation }),
  };
}

/** What is found in a week's text in a notebook that has the week already: of two that are the same week nothing is said. */
export function findingsOnWeek(text: string, notebook: readonly Document[]): readonly Finding[] {
  const { entry, evaluation, met } = readIn(text, notebook);
  if (!entry) return [];
  const { line } = entry.read;
  return judge({ line, text: entry.text, problems: [...met, ...evaluation.problemsOf(line)], plan: null, evaluation }).filter(
    ({ rule }) => rule !== "declared-twice" && rule !== "weeks-overlap",
  );
}

interface ReadIn {
  /** The text's block. */
  readonly entry: (Entry & PlacedBlock) | undefined;
  readonly evaluation: Evaluation;
  /** What reading it and the notebook around it met. */
  readonly met: readonly Problem[];
}

function readIn(text: string, notebook: readonly Document[]): ReadIn {
  const path = "suggestion";
  const placed = [...notebook, { path, text }].flatMap((document) =>
    openDocument(document, null).blocks.map((block) => ({ ...block, path: document.path })),
  );
  const { world, problems } = survey(placed, new Set([...notebook.map((document) => document.path), path]));
  const entry = placed.find((block) => block.path === path && (block.read.line.kind === "plan" || block.read.line.kind === "week"));
  return {
    entry,
    evaluation: new Evaluation(world, placed, null),
    met: entry ? [...entry.read.problems, ...(problems.get(entry) ?? [])] : [],
  };
}
