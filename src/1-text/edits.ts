import type { Edit } from "../0-base/problem.js";

/** The text after all edits; where two overlap, the earlier wins and the later is left out. */
export function applyEdits(text: string, edits: readonly Edit[]): string {
  let done = "";
  let at = 0;
  for (const { span, text: replacement } of [...edits].sort((a, b) => a.span.from - b.span.from)) {
    if (span.from < at) continue;
    done += text.slice(at, span.from) + replacement;
    at = span.to;
  }
  return done + text.slice(at);
}

/** The smallest single replacement that turns one text into another. */
export function difference(before: string, after: string): Edit | null {
  if (before === after) return null;
  let from = 0;
  const shorter = Math.min(before.length, after.length);
  while (from < shorter && before.charCodeAt(from) === after.charCodeAt(from)) from += 1;
  let tail = 0;
  while (tail < shorter - from && before.charCodeAt(before.length - 1 - tail) === after.charCodeAt(after.length - 1 - tail)) tail += 1;
  return { span: { from, to: before.length - tail }, text: after.slice(from, after.length - tail) };
}
