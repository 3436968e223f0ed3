import { wordsAfter } from "../2-tree/expected.js";
import { assumptionNames } from "../3-plan/assumptions.js";
import type { Line } from "../3-plan/ast.js";
import { ruleForms } from "../5-findings/limits/kinds.js";
import { formulaName } from "../3-plan/names.js";
import { keyOf, namesReader, type Occurrence, occurrencesIn, type ReadNotebook } from "../3-plan/occurrences.js";
import { openDocument } from "../3-plan/open.js";
import { lineKinds } from "../3-plan/lines/kinds.js";
import type { Snippet } from "../3-plan/lines/line-kind.js";
import { kindsUnder } from "../3-plan/placement.js";
import { printName } from "../3-plan/print-parts.js";
import { bodyParts } from "../3-plan/world.js";
import { snippets } from "./snippets.js";
import { wordHelp } from "./word-help.js";

/** One way to go on. */
export interface Completion {
  readonly label: string;
  /** What kind of name it is, or what the word does. */
  readonly detail: string;
  /** What is put in its place: a snippet's places are `#{…}`. */
  readonly insert: string;
  readonly sort: "name" | "word" | "block";
}

export interface Completions {
  /** Where what is replaced begins, from the start of the document. */
  readonly from: number;
  readonly options: readonly Completion[];
}

/** A name that no coach writes. It is put at the cursor to see what a name would be there. */
const probe = "Zzprobe";
/** What may have to follow the probe for its line to be read. */
const endings = [
  "",
  " 5",
  " hold",
  " + Zzb",
  " for Zzb",
  " on 2026-01-01",
  " unbroken 5",
  " 5 %",
  " 7 min",
  " = 1",
  " done 2:00",
  " under 1",
];

/** What could stand at `offset` of a document: the names, words and blocks that begin with what is typed there. */
export function completionsAt(notebook: ReadNotebook, text: string, offset: number): Completions | null {
  const lineStart = text.lastIndexOf("\n", offset - 1) + 1;
  const before = text.slice(lineStart, offset);
  if (/^\s*[#>]|\/\//.test(before)) return null;
  const typed = /[\p{L}][\p{L}\p{N}_'-]*$/u.exec(before)?.[0] ?? "";
  const lead = before.slice(0, before.length - typed.length);
  const place = placeOf(notebook, text.slice(0, offset - typed.length));
  const names = namesFor(notebook, place);
  const words = lead.trim() === "" ? headsUnder(place.under) : [...choicesAfter(lead, notebook), ...wordsAfter(lead.trim()).map(word)];
  const options = [...names, ...words];
  // A name of several words is found again from its beginning.
  for (const from of startsOf(before, lineStart)) {
    const start = text.slice(from, offset).toLowerCase();
    const fitting = options.filter(
      ({ label, insert, sort }) =>
        label.toLowerCase().startsWith(start) && insert !== text.slice(from, offset) && (from === offset - typed.length || sort === "name"),
    );
    if (fitting.length > 0) return { from, options: fitting };
  }
  return null;
}

/** Where a name that the cursor stands in may begin: at most three words back. */
function startsOf(before: string, lineStart: number): readonly number[] {
  const starts = [...before.matchAll(/(?<![\p{L}\p{N}_'-])[\p{L}][\p{L}\p{N}_'-]*/gu)].map(({ index }) => lineStart + index).slice(-3);
  const typing = /[\p{L}\p{N}_'-]$/u.test(before);
  return typing ? starts : [...starts, lineStart + before.length];
}

interface Place {
  /** What a name would be here, with the event or plan it would belong to. */
  readonly kinds: readonly Pick<Occurrence, "kind" | "scope" | "declares" | "inFormula">[];
  /** The line under which this one stands; null at the top. */
  readonly under: Line["kind"] | null;
  /** The plan it stands in, whose pairs may work. */
  readonly plan: string | null;
}

function placeOf(notebook: ReadNotebook, before: string): Place {
  const start = Math.max(0, [...before.matchAll(/^\S/gm)].at(-1)?.index ?? 0);
  const kinds = new Map<string, Occurrence>();
  const namesOf = namesReader(notebook);
  let under: Line["kind"] | null = null;
  let plan: string | null = null;
  for (const ending of endings) {
    const read = openDocument({ path: "", text: `${before.slice(start)}${probe}${ending}\n` }, null).blocks.at(-1);
    if (!read) continue;
    const { line } = read.read;
    const at = lineAtOffset(line, null, before.length - start - read.from);
    under ??= at?.under ?? null;
    plan ??= line.kind === "plan" ? line.name.text : null;
    if (!at || !kindsUnder(at.under).some((kind) => kind === at.kind)) continue;
    for (const found of namesOf(read)) if (found.name.endsWith(probe)) kinds.set(`${found.kind} ${found.scope ?? ""}`, found);
  }
  return { kinds: [...kinds.values()], under, plan };
}

/** The line at an offset of its block, and the one it stands under. */
function lineAtOffset(
  line: Line,
  under: Line["kind"] | null,
  offset: number,
): { readonly kind: Line["kind"]; readonly under: Line["kind"] | null } | null {
  for (const inner of line.body) {
    const found = lineAtOffset(inner, line.kind, offset);
    if (found) return found;
  }
  return line.span.from <= offset && offset <= line.span.to ? { kind: line.kind, under } : null;
}

function namesFor(notebook: ReadNotebook, { kinds, plan }: Place): readonly Completion[] {
  const all = new Map(
    [...occurrencesIn(notebook).values()]
      .flat()
      .filter(({ kind, declares }) => kind !== "value" || declares)
      .sort((a, b) => b.name.length - a.name.length)
      .map((one) => [keyOf(one), one]),
  );
  const found = new Map<string, Completion>();
  for (const wanted of kinds.filter(({ declares }) => !declares)) {
    const mine = [...all.values()].filter(
      ({ kind, scope }) =>
        fits(kind, wanted.kind, wanted.inFormula) && (scope === null || scope === (kind === "pair" ? plan : wanted.scope)),
    );
    for (const { name, kind } of mine) {
      const insert = wanted.inFormula ? formulaName(name) : printName({ text: name });
      found.set(insert, { label: insert, detail: kind, insert, sort: "name" });
    }
    if (wanted.kind === "body part")
      for (const part of bodyParts) found.set(part, { label: part, detail: "body part", insert: part, sort: "name" });
  }
  return [...found.values()].sort((a, b) => (a.label < b.label ? -1 : 1));
}

/** Where an athlete may stand a pair may stand too; a formula takes any plan, event, athlete or value. */
function fits(kind: Occurrence["kind"], wanted: Occurrence["kind"], inFormula: boolean): boolean {
  if (inFormula) return ["value", "plan", "event", "athlete"].includes(kind);
  return kind === wanted || (wanted === "athlete" && kind === "pair");
}

function word(text: string): Completion {
  return { label: text, detail: wordHelp[text] ?? "", insert: text, sort: "word" };
}

/** The words and blocks that may open a line here. */
function headsUnder(kind: Line["kind"] | null): readonly Completion[] {
  const heads = kindsUnder(kind).flatMap((inner) => lineKinds[inner].head ?? []);
  return kind === null ? snippets.map(block) : heads.map(word);
}

function block({ word: label, says, text }: Snippet): Completion {
  return { label, detail: says, insert: text, sort: "block" };
}

const choices: Readonly<Record<string, readonly string[]>> = {
  score: ["time", "reps"],
  pairs: ["alike", "mixed", "any"],
  assume: assumptionNames,
  rule: ruleForms,
};

/** Words that are neither names nor keywords: the choices of a setting, forms of rules, documents, women and men. */
function choicesAfter(lead: string, { documents }: ReadNotebook): readonly Completion[] {
  const [head = "", ...rest] = lead.trim().split(/\s+/);
  const plain = (texts: readonly string[], detail: string): readonly Completion[] =>
    texts.map((text) => ({ label: text, detail, insert: text, sort: "word" }));
  if (rest.length === 0 && head === "use")
    return documents.map(({ path }) => ({ label: path, detail: "document", insert: `"${path}"`, sort: "word" }));
  if ((head === "window" || head === "station") && rest.at(-1) === "for") return plain(["women", "men"], "category");
  return rest.length === 0 && Object.hasOwn(choices, head) ? plain(choices[head] ?? [], head) : [];
}
