/**
 * Text in, everything out. Takes a notebook's documents and what an earlier compilation left; gives the answer to every
 * line, every finding, every plan's timeline, each when first asked for. Pure: the same documents give the same answers,
 * with or without `before`.
 */
import type { Document } from "./1-text/document.js";
import { once } from "./0-base/once.js";
import { formulaName } from "./3-plan/names.js";
import { openDocument, type PlacedBlock } from "./3-plan/open.js";
import { type Entry, survey } from "./3-plan/world.js";
import { Evaluation } from "./4-timeline/evaluate.js";
import { AnsweredBlock, type AnsweredNotebook } from "./7-view/answered-block.js";
import type { DrawnDays } from "./7-view/spread-words.js";

/** Days are drawn when first asked for, and stand as long as their plan's timeline does. */
export interface Compiled extends AnsweredNotebook {
  /** Makes all that nobody has asked for yet; gives how many timelines had to be computed, the rest were kept. */
  readonly settle: () => number;
}

export function compile(documents: readonly Document[], before: Compiled | null = null): Compiled {
  const answered = new Map<Entry["read"], AnsweredBlock>();
  for (const { blocks } of before?.documents.values() ?? []) for (const block of blocks) answered.set(block.block.read, block);
  const opened = documents.map((document) => openDocument(document, before?.documents.get(document.path)?.document ?? null));
  const placed = opened.map((document) => document.blocks.map((block): Entry & PlacedBlock => ({ ...block, path: document.path })));
  const entries = placed.flat();
  const { world, problems } = survey(entries, new Set(documents.map(({ path }) => path)));
  const evaluation = new Evaluation(world, entries, before?.kept ?? null);
  const answer = (entry: Entry & PlacedBlock): AnsweredBlock =>
    new AnsweredBlock(entry, problems.get(entry) ?? [], evaluation, answered.get(entry.read) ?? null);
  const out = new Map(opened.map((document, at) => [document.path, { document, blocks: (placed[at] ?? []).map(answer) }] as const));
  const settle = (): number => {
    for (const { blocks } of out.values()) for (const block of blocks) void [block.answers, block.findings];
    return evaluation.simulated;
  };
  return { documents: out, kept: evaluation.kept(), daysOf: (plan) => evaluation.daysOf(plan), settle };
}

/** The days of a notebook's plans, drawn when asked for. */
export function drawnIn({ documents, daysOf }: Compiled): DrawnDays {
  const plans = once(() => [...documents.values()].flatMap(({ blocks }) => blocks.flatMap(({ plan }) => plan ?? [])));
  return {
    of: daysOf,
    named: (name) => {
      const plan = plans().find(({ resolved }) => formulaName(resolved.line.name.text) === formulaName(name));
      return plan ? daysOf(plan) : null;
    },
  };
}
