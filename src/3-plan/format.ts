import type { Tree } from "@lezer/common";
import { lineAt, lineStarts } from "../1-text/document.js";
import { blocksOf } from "../2-tree/blocks.js";
import { parse } from "../2-tree/parse.js";
import type { Line } from "./ast.js";
import { intendedBy } from "./intended.js";
import { athleteNamed } from "./names.js";
import type { Word } from "./parts.js";
import { printedLines, printQuoted } from "./print.js";
import { readBlock } from "./read.js";

/**
 * A document in the house style: two spaces an indent, single spaces, tables in columns. Headings, notes, comments
 * and blank lines stay (never two blank lines together); a line that cannot be read stays as typed.
 */
export function format(text: string): string {
  const source = text.replace(/^\uFEFF/, "").replace(/\r\n?/g, "\n");
  const starts = lineStarts(source);
  const lines = source.split("\n");
  const { tree } = parse(source);
  const comments = commentsByLine(source, tree, starts);
  const done = new Map<number, { readonly depth: number; readonly text: string }>();
  const blocks = blocksOf(source, tree).map((block) => ({ from: block.from, ...readBlock(block) }));
  const names = athletesIn(blocks.map(({ line }) => line));
  for (const { from, line: read, problems } of blocks) {
    const heads: Line[] = [];
    for (const { line: typed, depth, text: printed } of printedLines(spelled(read, names))) {
      heads[depth] = typed;
      const at = lineAt(starts, from + typed.span.from);
      const faulty = typed.kind === "broken" || problems.some(({ span }) => span.from >= typed.span.from && span.to <= typed.span.to);
      const written = faulty ? null : faithful(typed, printed, headsOf(heads[depth - 1]));
      done.set(at, { depth, text: written === null ? (lines[at] ?? "").trim() : withComment(written, comments.get(at)) });
    }
  }
  const out: string[] = [];
  lines.forEach((line, at) => {
    const printed = done.get(at);
    if (printed) out.push("  ".repeat(printed.depth) + printed.text);
    else if (line.trim() !== "") out.push(`${" ".repeat(depthOfFree(line, at, done, lines.length))}${line.trim()}`);
    else if (out.length > 0 && out.at(-1) !== "") out.push("");
  });
  while (out.at(-1) === "") out.pop();
  return out.length === 0 ? "" : `${out.join("\n")}\n`;
}

/** The kinds of line under which a line may be read: where its head cannot be, any that tells what is meant by lines under it. */
function headsOf(head: Line | undefined): readonly (Line["kind"] | null)[] {
  return head?.kind === "broken" ? ["team", "event", "plan"] : [head?.kind ?? null];
}

/** A line's text that reads back as the same line: as printed, else with its names in quotes; null where neither does. */
function faithful(line: Line, printed: string, under: readonly (Line["kind"] | null)[]): string | null {
  const same = (text: string): boolean => {
    if (line.kind !== "standard" && under.some((head) => intendedBy(text, head, "").length > 0)) return false;
    const [block, another] = blocksOf(text, parse(text).tree);
    if (!block || another) return false;
    const back = readBlock(block).line;
    return meaning({ ...back, body: [] }) === meaning({ ...line, body: [] });
  };
  if (same(printed)) return printed;
  const quoted = printQuoted(line);
  return same(quoted) ? quoted : null;
}

/** A line as one string, wherever it stands. */
function meaning(line: Line): string {
  return JSON.stringify(line, (key, value: unknown) => (key === "span" ? undefined : typeof value === "number" ? String(value) : value));
}

/** The athletes that a document declares. */
function athletesIn(blocks: readonly Line[]): ReadonlyMap<string, unknown> {
  return new Map(blocks.flatMap(({ body }) => body.flatMap((line) => (line.kind === "athlete" ? [[line.name.text, line] as const] : []))));
}

/** A block in which athletes are spelled as they are declared. */
function spelled(line: Line, athletes: ReadonlyMap<string, unknown>, pairs: readonly string[] = []): Line {
  const named = line.kind === "plan" ? line.body.flatMap((inner) => (inner.kind === "pair" ? [inner.name.text] : [])) : pairs;
  const body = line.body.map((inner) => spelled(inner, athletes, named));
  if (line.kind === "log broke" || line.kind === "log dropped" || line.kind === "log no-rep")
    return { ...line, athlete: { ...line.athlete, text: athleteNamed(line.athlete.text, athletes) ?? line.athlete.text } };
  if (line.kind !== "turn" && line.kind !== "round turn" && line.kind !== "named rest") return { ...line, body };
  const known = (text: string): string => (named.includes(text) ? text : (athleteNamed(text, athletes) ?? text));
  const spelt = (words: readonly Word[]): readonly Word[] => words.map((word) => ({ ...word, text: known(word.text) }));
  if (line.kind === "named rest") return { ...line, body, who: spelt(line.who) };
  const hold = line.clauses.hold && { ...line.clauses.hold, who: spelt(line.clauses.hold.who) };
  return { ...line, body, who: spelt(line.who), clauses: { ...line.clauses, hold } };
}

function withComment(text: string, comment: string | undefined): string {
  return comment === undefined ? text : `${text}  ${comment}`;
}

/** Comments that follow something on their line, by line. */
function commentsByLine(text: string, tree: Tree, starts: readonly number[]): ReadonlyMap<number, string> {
  const found = new Map<number, string>();
  tree.iterate({
    enter(node) {
      if (node.name === "Comment") found.set(lineAt(starts, node.from), text.slice(node.from, node.to).trimEnd());
    },
  });
  return found;
}

/** Free lines (headings, notes, comments) that were indented go with the next line that was formatted. */
function depthOfFree(line: string, at: number, done: ReadonlyMap<number, { readonly depth: number }>, count: number): number {
  if (!/^\s/.test(line)) return 0;
  for (let next = at + 1; next < count; next += 1) {
    const printed = done.get(next);
    if (printed) return 2 * printed.depth;
  }
  return 2;
}
