import type { Edit } from "../0-base/problem.js";
import type { Span } from "../0-base/span.js";

/** Edits that put a new line before the one at a place, with its indentation. */
export function lineBefore(text: string, { from }: Span, line: string): Edit {
  const start = text.lastIndexOf("\n", from - 1) + 1;
  return { span: { from, to: from }, text: `${line}\n${text.slice(start, from)}` };
}

/** The same after it. */
export function lineAfter(text: string, { from, to }: Span, line: string): Edit {
  const start = text.lastIndexOf("\n", from - 1) + 1;
  const end = text.indexOf("\n", to);
  const at = end < 0 ? text.length : end;
  return { span: { from: at, to: at }, text: `\n${text.slice(start, from)}${line}` };
}
