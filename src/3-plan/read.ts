import type { SyntaxNode } from "@lezer/common";
import type { Problem } from "../0-base/problem.js";
import type { Span } from "../0-base/span.js";
import { applyEdits } from "../1-text/edits.js";
import { type Block, blocksOf } from "../2-tree/blocks.js";
import { longestLine, parse } from "../2-tree/parse.js";
import type { Line } from "./ast.js";
import { intendedBy } from "./intended.js";
import { allKinds } from "./lines/kinds.js";
import type { LineKind } from "./lines/line-kind.js";
import { kindsUnder, misplacedLines } from "./placement.js";
import { Reader } from "./reader.js";
import { reportSaidTwice } from "./said-twice.js";
import { saidTwiceIn } from "./twice.js";
import { inOtherWords, unreadable } from "./unreadable.js";

/** A block of text as typed lines, and what could not be read. */
export interface ReadBlock {
  readonly line: Line;
  readonly problems: readonly Problem[];
}

/** tree → AST, one block. A line that cannot be read becomes a `broken` line with one problem; its body is read all the same. */
export function readBlock(block: Block): ReadBlock {
  const problems: Problem[] = [];
  const reader = new Reader(block.text, block.from, (found) => void problems.push(found));
  const readItem = (item: SyntaxNode, under: Line["kind"] | null): Line => {
    const node = contentOf(item);
    const span = lineSpan(item, node, reader);
    const body: Line[] = [];
    const tooLong = span.to - span.from > longestLine;
    const broken = firstBreak(item);
    const known = problems.length;
    const bare = broken || tooLong ? null : node && readLine(node, reader);
    if (node && bare) reportSaidTwice(node, reader);
    const ownProblems = problems.length - known;
    for (const inner of item.getChildren("Body"))
      for (const child of itemsOf(inner)) body.push(readItem(child, bare?.kind ?? headedBy(node) ?? under));
    const meant = tooLong ? [] : intendedBy(block.text.slice(span.from, span.to), under, block.text);
    if (bare && (meant.length === 0 || bare.kind === "standard")) return { ...bare, span, body };
    // What is wrong with the line as it was read is beside the point where it was meant otherwise.
    if (meant.length > 0) problems.splice(known, ownProblems, inOtherWords(span, meant, reader));
    else problems.push(unreadable(span, broken, reader));
    return { kind: "broken", span, body };
  };
  const line = readItem(block.node, null);
  const all = [...problems, ...misplacedLines(line, block.text), ...saidTwiceIn(line)];
  return { line, problems: all.some(isGuess) ? all.map((found) => (isGuess(found) ? tried(found, block.text, all.length) : found)) : all };
}

function isGuess({ rule, fixes }: Problem): boolean {
  return rule === "does-not-parse" && fixes.length > 0;
}

/** A near word is offered only where the block reads better with it. */
function tried(found: Problem, text: string, before: number): Problem {
  const fixes = found.fixes.filter(({ edits }) => {
    const changed = applyEdits(text, edits);
    const [block, another] = blocksOf(changed, parse(changed).tree);
    return block !== undefined && !another && readBlock(block).problems.length < before;
  });
  return { ...found, fixes };
}

/** What a line that cannot be read heads all the same, as far as its first word tells. */
function headedBy(node: SyntaxNode | null): Line["kind"] | null {
  const kind = node && kindsOf.get(node.name)?.[0];
  return kind && kindsUnder(kind.kind).length > 0 ? kind.kind : null;
}

function contentOf(item: SyntaxNode): SyntaxNode | null {
  for (let child = item.firstChild; child; child = child.nextSibling) {
    if (!["Body", "Comment", "Heading", "Note", "Junk"].includes(child.name)) return child;
  }
  return null;
}

/** All items of a body, those of a second, deeper indent among them. */
function itemsOf(body: SyntaxNode): readonly SyntaxNode[] {
  return body.getChildren("Item");
}

/** Where the line's own text (not its body's) is Junk, Missing or an error; null where it is whole. */
function firstBreak(item: SyntaxNode): SyntaxNode | null {
  const search = (node: SyntaxNode): SyntaxNode | null => {
    for (let child = node.firstChild; child; child = child.nextSibling) {
      if (child.name === "Body") continue;
      if (child.name === "Junk" || child.name === "Missing" || child.type.isError) return child;
      const inner = search(child);
      if (inner) return inner;
    }
    return null;
  };
  return search(item);
}

/** The line's stretch of text: from its first mark to its last, without comment. */
function lineSpan(item: SyntaxNode, node: SyntaxNode | null, reader: Reader): Span {
  const from = item.from - reader.base;
  const end = reader.text.indexOf("\n", from);
  const line = reader.text.slice(from, end < 0 ? undefined : end);
  let comment: SyntaxNode | null = item.getChild("Comment") ?? node?.getChild("Comment") ?? following(item);
  if (comment && (comment.from < item.from || comment.from >= item.from + line.length)) comment = null;
  const whole = comment ? line.slice(0, comment.from - item.from) : line;
  return { from, to: from + whole.trimEnd().length };
}

/** What follows an item: behind the last line of a document a comment is none of its own. */
function following(item: SyntaxNode): SyntaxNode | null {
  let last: SyntaxNode | null = item;
  while (last && !last.nextSibling) last = last.parent;
  const next = last?.nextSibling ?? null;
  return next?.name === "Comment" ? next : null;
}

function readLine(node: SyntaxNode, reader: Reader): ReadLine | null {
  for (const kind of kindsOf.get(node.name) ?? []) {
    const read = kind.read(node, reader);
    if (read) return read;
  }
  return null;
}

type ReadLine = NonNullable<ReturnType<LineKind["read"]>>;

const kindsOf: ReadonlyMap<string, readonly LineKind[]> = new Map(
  allKinds.map(({ node }) => [node, allKinds.filter((kind) => kind.node === node)]),
);
