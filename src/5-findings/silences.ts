import type { Span } from "../0-base/span.js";
import type { Line } from "../3-plan/ast.js";

/** `// allow opens-hard: why` — no finding of that rule on its line, or in the block that its line heads. */
export interface Silence {
  readonly rule: string;
  /** Where the rule's id stands. */
  readonly span: Span;
  /** The text it silences. */
  readonly over: Span;
}

const allow = /\/\/\s*allow\s+([a-z-]+(?:\s*,\s*[a-z-]+)*)/g;

/** The silences of a block. On a line of its own a silence is about the line that follows. */
export function silencesOf(text: string, block: Line): readonly Silence[] {
  const found: Silence[] = [];
  for (const match of text.matchAll(allow)) {
    const [whole, ids = ""] = match;
    const lineStart = text.lastIndexOf("\n", match.index - 1) + 1;
    const alone = text.slice(lineStart, match.index).trim() === "";
    const about = alone ? text.indexOf("\n", match.index) + 1 : lineStart;
    const over = stretchOf(block, about, text);
    for (const id of ids.matchAll(/[a-z-]+/g)) {
      const from = match.index + whole.length - ids.length + id.index;
      found.push({ rule: id[0], span: { from, to: from + id[0].length }, over });
    }
  }
  return found;
}

/** A line with all that is indented under it. */
function stretchOf(block: Line, at: number, text: string): Span {
  const end = text.indexOf("\n", at);
  const lineEnd = end < 0 ? text.length : end;
  const headed = find(block, at, lineEnd);
  return { from: at, to: Math.max(lineEnd, headed ? endOf(headed) : lineEnd) };
}

function find(line: Line, from: number, to: number): Line | null {
  if (line.span.from >= from && line.span.from <= to) return line;
  for (const inner of line.body) {
    const found = find(inner, from, to);
    if (found) return found;
  }
  return null;
}

function endOf(line: Line): number {
  return Math.max(line.span.to, ...line.body.map(endOf));
}
