/**
 * Text in, everything out. Takes a notebook's documents and what an earlier compilation left; gives the answer to every
 * line, every finding, every plan's timeline. Pure: the same documents give the same answers, with or without `before`.
 */
import type { Problem } from "./0-base/problem.js";
import type { Document } from "./1-text/document.js";
import { type OpenDocument, openDocument, type PlacedBlock } from "./3-plan/open.js";
import { type Entry, survey } from "./3-plan/world.js";
import { Evaluation, type Kept, type PlanResult } from "./4-timeline/evaluate.js";
import type { Days } from "./4-timeline/spread.js";
import { type Finding, judge } from "./5-findings/judge.js";
import type { Answer } from "./7-view/answer.js";
import { blockAnswers } from "./7-view/block-answers.js";

/** A block in its place with all that is said of it; offsets and lines inside count from the block's start. */
export interface AnsweredBlock {
  readonly block: PlacedBlock;
  readonly answers: readonly Answer[];
  readonly findings: readonly Finding[];
  readonly plan: PlanResult | null;
  /** Problems that the notebook around the block gave it. */
  readonly met: number;
}

export interface Compiled {
  readonly documents: ReadonlyMap<string, { readonly document: OpenDocument; readonly blocks: readonly AnsweredBlock[] }>;
  /** Timelines that had to be computed; the rest were kept. */
  readonly simulated: number;
  readonly kept: Kept;
  /** How a plan goes on many days: drawn when first asked for, as long as its timeline stands. */
  readonly daysOf: (plan: PlanResult) => Days | null;
}

export function compile(documents: readonly Document[], before: Compiled | null = null): Compiled {
  const opened = documents.map((document) => openDocument(document, before?.documents.get(document.path)?.document ?? null));
  const placed = opened.map((document) => document.blocks.map((block): Entry & PlacedBlock => ({ ...block, path: document.path })));
  const entries = placed.flat();
  const { world, problems } = survey(entries, new Set(documents.map(({ path }) => path)));
  const evaluation = new Evaluation(world, entries, before?.kept ?? null);
  const answered = new Map<Entry["read"], AnsweredBlock>();
  for (const { blocks } of before?.documents.values() ?? []) for (const block of blocks) answered.set(block.block.read, block);
  const answer = (entry: Entry & PlacedBlock): AnsweredBlock => answerBlock(entry, problems.get(entry) ?? [], evaluation, before, answered);
  const out = opened.map((document, at) => [document.path, { document, blocks: (placed[at] ?? []).map(answer) }] as const);
  return { documents: new Map(out), simulated: evaluation.simulated, kept: evaluation.kept(), daysOf: (plan) => evaluation.daysOf(plan) };
}

/** A block's answers are kept where its text, its plan's timeline, its problems and the declarations are the same. */
function answerBlock(entry: Entry & PlacedBlock, met: readonly Problem[], evaluation: Evaluation, before: Compiled | null, answered: ReadonlyMap<Entry["read"], AnsweredBlock>): AnsweredBlock {
  const { line, problems } = entry.read;
  const plan = line.kind === "plan" ? evaluation.planOf(entry, line) : null;
  const kept = answered.get(entry.read);
  const free = !["let", "expect", "compare", "log", "week"].includes(line.kind);
  const same = kept && free && met.length === 0 && before?.kept.abilities === evaluation.abilities && kept.plan?.resolved === plan?.resolved && kept.plan?.timeline === plan?.timeline;
  if (same && kept.met === 0) return { ...kept, block: entry, plan };
  const own = [...problems, ...met, ...(plan?.resolved.problems ?? []), ...evaluation.problemsOf(line)];
  return { block: entry, answers: blockAnswers(line, entry.text, plan, evaluation), findings: judge({ line, text: entry.text, problems: own, plan, evaluation }), plan, met: met.length };
}
