import type { SyntaxNode } from "@lezer/common";
import { describe, expect, it } from "vitest";
import { lineAt, lineStarts } from "../../src/1-text/document.js";
import { difference } from "../../src/1-text/edits.js";
import { parse, type Parsed, reparse } from "../../src/2-tree/parse.js";
import { compile } from "../../src/compile.js";
import { lighthouse } from "../notebook.js";
import { brokenLines } from "./broken-lines.js";

/** Each line's nodes below its item: kinds and places from the line's start; blocks that span lines are no line's. */
function treeByLine({ text, tree }: Parsed): readonly string[] {
  const starts = lineStarts(text);
  const lines: string[][] = starts.map(() => []);
  const walk = (node: SyntaxNode): void => {
    const line = lineAt(starts, node.from);
    const from = starts[line] ?? 0;
    if (node.name !== "Item" && node.name !== "Body" && node.name !== "Document")
      lines[line]?.push(`${node.name} ${node.from - from}-${node.to - from}`);
    for (let child = node.firstChild; child; child = child.nextSibling) walk(child);
  };
  walk(tree.topNode);
  return lines.map((nodes) => nodes.join(" "));
}

/** Lines that carry something, by index. */
function fullLines(text: string): readonly number[] {
  return text.split("\n").flatMap((line, at) => (/^\s*([#>]|\/\/|$)/.test(line) ? [] : [at]));
}

function replaced(text: string, at: number, by: string): string {
  const lines = text.split("\n");
  lines[at] = (/^\s*/.exec(lines[at] ?? "")?.[0] ?? "") + by;
  return lines.join("\n");
}

describe("a broken line", () => {
  it("comes in at least a hundred kinds", () => {
    expect(new Set(brokenLines).size).toBe(brokenLines.length);
    expect(brokenLines.length).toBeGreaterThanOrEqual(100);
  });

  it.each(lighthouse.map((document) => [document.path, document.text] as const))(
    "in place of any line of %s changes no other line's tree",
    (_path, text) => {
      const parsed = parse(text);
      const whole = treeByLine(parsed);
      const damage: string[] = [];
      for (const at of fullLines(text)) {
        for (const broken of brokenLines) {
          const next = replaced(text, at, broken);
          const edit = difference(text, next);
          const now = edit ? treeByLine(reparse(parsed, edit, next)) : whole;
          whole.forEach((nodes, line) => {
            if (line !== at && now[line] !== nodes) damage.push(`“${broken}” on line ${at + 1} changes line ${line + 1}`);
          });
        }
      }
      expect(damage.slice(0, 5)).toEqual([]);
    },
  );

  it("leaves the answers of all lines that do not depend on it", () => {
    const before = compile(lighthouse);
    const answers = (compiled: typeof before, path: string) => compiled.documents.get(path)?.blocks ?? [];
    const damage: string[] = [];
    lighthouse.forEach(({ path, text }, document) => {
      fullLines(text).forEach((at, count) => {
        // Every line, with each kind in its turn: all pairs of line and kind are met in the test above.
        const broken = brokenLines[(count * 7 + document) % brokenLines.length] ?? "x";
        const changed = lighthouse.map((one) => (one.path === path ? { path, text: replaced(text, at, broken) } : one));
        const after = compile(changed, before);
        const own = answers(before, path).findLast(({ block }) => block.firstLine <= at);
        for (const other of lighthouse) {
          for (const block of answers(before, other.path)) {
            if (block === own || depends(block.block.read.line.kind, own?.block.read.line.kind ?? "")) continue;
            const kept = answers(after, other.path).find(({ block: now }) => now.text === block.block.text);
            if (JSON.stringify(kept?.answers) !== JSON.stringify(block.answers))
              damage.push(`“${broken}” in ${path}:${at + 1} changes ${other.path}:${block.block.firstLine + 1}`);
          }
        }
      });
    });
    expect(damage.slice(0, 5)).toEqual([]);
  });
});

/** Whether blocks of one kind may read what a block of the other says: all read declarations, formulas read plans. */
function depends(kind: string, on: string): boolean {
  const declarations = ["team", "movement", "hold", "ability", "event", "assume"];
  if (declarations.includes(on)) return kind !== "movement" && kind !== "hold";
  return (on === "plan" || on === "let") && ["let", "expect", "compare", "week", "log", "plan"].includes(kind) && kind !== "plan";
}
