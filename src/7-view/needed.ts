import type { Document } from "../1-text/document.js";
import { keyOf, occurrencesIn } from "../3-plan/occurrences.js";
import type { AnsweredNotebook } from "./answered-block.js";

/** A document with the ones that it needs to be answered: those that declare a name it uses, and what those need in their turn. */
export function neededBy(path: string, { documents, kept }: AnsweredNotebook): readonly Document[] {
  const names = occurrencesIn({
    documents: [...documents].map(([at, { document }]) => ({ path: at, blocks: document.blocks })),
    world: kept.world,
  });
  const declaredIn = new Map<string, string[]>();
  for (const [at, all] of names)
    for (const name of all) if (name.declares) declaredIn.set(keyOf(name), [...(declaredIn.get(keyOf(name)) ?? []), at]);
  const withKind = (kind: "assume" | "ability"): readonly string[] =>
    [...documents].filter(([, { blocks }]) => blocks.some(({ block }) => block.read.line.kind === kind)).map(([at]) => at);
  // What is assumed bears on all; tests belong to no name that a plan writes, they go with their athletes.
  const found = new Set([path, ...withKind("assume")]);
  for (const at of found) {
    for (const name of names.get(at) ?? []) for (const other of declaredIn.get(keyOf(name)) ?? []) found.add(other);
    const athletes = new Set((names.get(at) ?? []).flatMap(({ kind, name }) => (kind === "athlete" ? [name] : [])));
    for (const other of withKind("ability"))
      if (names.get(other)?.some(({ kind, name }) => kind === "athlete" && athletes.has(name))) found.add(other);
  }
  return [...found].sort().flatMap((at) => {
    const document = documents.get(at)?.document;
    return document ? [{ path: at, text: document.parsed.text }] : [];
  });
}
