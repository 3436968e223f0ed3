import type { Tree } from "@lezer/common";
import { lineAt, lineStarts } from "../1-text/document.js";
import { blocksOf } from "../2-tree/blocks.js";
import { parse } from "../2-tree/parse.js";
import { printedLines } from "./print.js";
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
  for (const block of blocksOf(source, tree)) {
    const read = readBlock(block).line;
    for (const { line, depth, text: printed } of printedLines(read)) {
      const at = lineAt(starts, block.from + line.span.from);
      done.set(at, { depth, text: line.kind === "broken" ? (lines[at] ?? "").trim() : withComment(printed, comments.get(at)) });
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
