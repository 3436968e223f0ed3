/**
 * The judge of what the search proposes. It stands apart: it sees the text alone, reads it as any document of the
 * notebook is read, and asks the rules and the clock, not the search.
 */
import type { Document } from "../1-text/document.js";
import { openDocument } from "../3-plan/open.js";
import { survey } from "../3-plan/world.js";
import { Evaluation } from "../4-timeline/evaluate.js";
import { troubledShare, runDays, spreadOf, type Spread } from "../4-timeline/spread.js";
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
  const path = "suggestion";
  const placed = [...notebook, { path, text }].flatMap((document) => openDocument(document, null).blocks.map((block) => ({ ...block, path: document.path })));
  const { world, problems } = survey(placed, new Set([...notebook.map((document) => document.path), path]));
  const evaluation = new Evaluation(world, placed, null);
  const entry = placed.find((block) => block.path === path && block.read.line.kind === "plan");
  if (entry?.read.line.kind !== "plan") return null;
  const { line } = entry.read;
  const plan = evaluation.planOf(entry, line);
  const spec = plan.resolved.plan;
  if (!spec || !plan.timeline) return null;
  const days = runDays(spec, evaluation.abilities, world.constants, { to: draws });
  const found = [...entry.read.problems, ...(problems.get(entry) ?? []), ...plan.resolved.problems, ...evaluation.problemsOf(line)];
  return {
    timeline: plan.timeline,
    spread: spreadOf(days),
    troubled: troubledShare(days),
    findings: judge({ line, text: entry.text, problems: found, plan, evaluation }),
  };
}
