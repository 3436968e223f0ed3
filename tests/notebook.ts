/** What the tests share: compiling texts, and the timeline of a plan in one. */
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import type { Document } from "../src/1-text/document.js";
import { compile, type Compiled } from "../src/compile.js";
import type { Finding } from "../src/5-findings/judge.js";
import type { Timeline } from "../src/4-timeline/timeline.js";

export const root = new URL("..", import.meta.url).pathname;

export function readDocuments(folder: string): readonly Document[] {
  return readdirSync(join(root, folder))
    .filter((name) => name.endsWith(".rota"))
    .sort()
    .map((path) => ({ path, text: readFileSync(join(root, folder, path), "utf8") }));
}

export const lighthouse = readDocuments("notebooks/lighthouse");

export function compileText(text: string): Compiled {
  return compile([{ path: "test.rota", text }]);
}

/** The timeline of a plan by name; of the only one without a name. */
export function timelineOf(compiled: Compiled, name?: string): Timeline {
  const plans = [...compiled.documents.values()].flatMap(({ blocks }) => blocks.flatMap(({ plan }) => (plan ? [plan] : [])));
  const found = plans.find(({ resolved }) => name === undefined || resolved.line.name.text === name);
  if (!found?.timeline) throw new Error(`no timeline for plan ${name ?? ""}: ${JSON.stringify(found?.resolved.problems)}`);
  return found.timeline;
}

/** Every finding of a compilation with its place: `path:line`. */
export function findingsOf(
  compiled: Compiled,
): readonly (Finding & { readonly path: string; readonly at: number; readonly marked: string })[] {
  return [...compiled.documents].flatMap(([path, { blocks }]) =>
    blocks.flatMap(({ block, findings }) =>
      findings.map((finding) => ({
        ...finding,
        path,
        at: block.from + finding.span.from,
        marked: block.text.slice(finding.span.from, finding.span.to),
      })),
    ),
  );
}

/** The answers of a document by line, from 1. */
export function answersOf(compiled: Compiled, path = "test.rota"): ReadonlyMap<number, string> {
  const blocks = compiled.documents.get(path)?.blocks ?? [];
  return new Map(blocks.flatMap(({ block, answers }) => answers.map(({ line, shown }) => [block.firstLine + line + 1, shown] as const)));
}

/** A tree without its places: what the text says. */
export function meaning(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(meaning);
  if (typeof value !== "object" || value === null) return value;
  return Object.fromEntries(
    Object.entries(value)
      .filter(([key]) => key !== "span")
      .map(([key, inner]) => [key, meaning(inner)]),
  );
}
