import { statSync } from "node:fs";
import { nearest } from "../0-base/nearest.js";
import type { Document } from "../1-text/document.js";
import { harmless } from "../1-text/document.js";
import { compile, type Compiled } from "../compile.js";
import type { PlanResult } from "../4-timeline/kept.js";
import type { Paint } from "../7-view/excerpt.js";
import { inputPath, readNotebook } from "./notebook.js";

/** Exit statuses: nothing at error; some; the program could not do what was asked. */
export const status = { good: 0, findings: 1, failed: 2 } as const;

/** Serves a notebook, the demo's without a path, until the process is stopped; gives the reason where it cannot. */
export type Open = (path: string | null, port: number, paint: Paint) => Promise<string | null>;

export interface Command {
  readonly about: string;
  readonly help: string;
  readonly run: (args: readonly string[], open: Open) => number | Promise<number>;
}

/** Words behind a command: names of things in the notebook, and paths to it. */
export interface Words {
  readonly names: readonly string[];
  readonly paths: readonly string[];
}

/**
 * All commands take names first, paths behind, and `--in PATH` besides. A path holds a slash, ends in .rota, is `-`, or is a
 * folder that is there; without any the notebook is here.
 */
export function wordsOf(positionals: readonly string[], within: readonly string[]): Words {
  const first = positionals.findIndex((word, at) => isPath(word, at > 0));
  const names = first < 0 ? positionals : positionals.slice(0, first);
  const paths = [...(first < 0 ? [] : positionals.slice(first)), ...within];
  return { names, paths: paths.length > 0 ? paths : ["."] };
}

function isPath(word: string, mayBeFolder: boolean): boolean {
  return (
    word === inputPath ||
    word === "." ||
    word === ".." ||
    word.includes("/") ||
    word.endsWith(".rota") ||
    (mayBeFolder && statSync(word, { throwIfNoEntry: false })?.isDirectory() === true)
  );
}

/** A notebook read and compiled, what was left out said; the exit status where there is none. */
export function compiledAt(paths: readonly string[]): { readonly documents: readonly Document[]; readonly compiled: Compiled } | number {
  const found = readNotebook(paths);
  if (!found.ok) return fail(found.reason);
  const documents = shownSafely(found.documents);
  noteAll(found.notes);
  return { documents, compiled: compile(documents) };
}

/** Documents as they may be shown on a terminal; offsets stay as they are. */
export function shownSafely(documents: readonly Document[]): readonly Document[] {
  return documents.map(({ path, text }) => ({ path: harmless(path), text: harmless(text) }));
}

export function noteAll(notes: readonly string[]): void {
  for (const note of notes) process.stderr.write(`rotaline: ${harmless(note)}\n`);
}

/** A plan by name, or why it cannot be shown. */
export function planByName(compiled: Compiled, name: string): PlanResult | string {
  const plans = [...compiled.documents.values()].flatMap(({ blocks }) => blocks.flatMap(({ plan }) => (plan ? [plan] : [])));
  const nameOf = ({ resolved }: PlanResult): string => resolved.line.name.text;
  const alike = plans.filter((plan) => nameOf(plan).toLowerCase() === name.toLowerCase());
  const found = plans.find((plan) => nameOf(plan) === name) ?? (alike.length === 1 ? alike[0] : undefined);
  if (found?.timeline) return found;
  if (found) return `Plan ${name} has no timeline yet: rotaline check says why.`;
  const names = plans.map(nameOf);
  const near = nearest(name, names);
  return `There is no plan “${name}”. ${names.length > 0 ? `Plans here: ${(near.length > 0 ? near : names).join(", ")}.` : ""}`;
}

export function fail(reason: string): number {
  process.stderr.write(`rotaline: ${harmless(reason)}\n`);
  return status.failed;
}
