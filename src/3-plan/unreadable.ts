import type { SyntaxNode } from "@lezer/common";
import { type Problem, problem } from "../0-base/problem.js";
import { isSlip } from "../0-base/nearest.js";
import type { Span } from "../0-base/span.js";
import { expectationAt } from "../2-tree/expected.js";
import { longestLine } from "../2-tree/parse.js";
import type { Intended } from "./habits/habit.js";
import type { Reader } from "./reader.js";

/** What could follow is tried only behind a stretch that a person would write. */
const longestGuess = 200;

/** A line that stops being read at `broken`: how far it was read, what could follow there, and near words. */
export function unreadable(span: Span, broken: SyntaxNode | null, reader: Reader): Problem {
  // A comment counts too: so long a line is not looked into.
  const end = reader.text.indexOf("\n", span.from);
  const tooLong = (end < 0 ? reader.text.length : end) - span.from > longestLine;
  if (tooLong) return problem("does-not-parse", span, { tooLong, most: longestLine });
  if (!broken) return problem("does-not-parse", span, { tooLong: false, read: "", junk: "", expected: [], near: [], ends: false });
  const at = { from: broken.from - reader.base, to: Math.max(broken.to, broken.from) - reader.base };
  const before = reader.text.slice(span.from, Math.min(at.from, span.to));
  const junk = reader.text.slice(Math.min(at.from, span.to), span.to).trimEnd();
  const { expected, near, ends } = before.length > longestGuess ? { expected: [], near: [], ends: false } : expectationAt(before, junk);
  const opening = /^\s*([\p{L}-]+)/u.exec(reader.text.slice(span.from))?.[1] ?? "";
  const word = { from: span.from, to: span.from + opening.length };
  const where = junk === "" ? { from: Math.max(span.from, span.to - 1), to: span.to } : { from: at.from, to: span.to };
  return problem(
    "does-not-parse",
    where,
    { tooLong: false, read: before.trim(), junk: shortened(junk), expected, near, ends },
    near.map((text) => ({ title: `write ${text}`, guess: !isSlip(opening, text), edits: [{ span: word, text }] })),
  );
}

/** A line in words that the language does not have, and what it was meant to be; inner lines keep the line's indentation. */
export function inOtherWords(span: Span, meant: readonly Intended[], reader: Reader): Problem {
  const start = reader.text.lastIndexOf("\n", span.from - 1) + 1;
  const margin = /^[ \t]*/.exec(reader.text.slice(start))?.[0] ?? "";
  const fixes = meant.map(({ title, lines, guess = false }) => ({ title, guess, edits: [{ span, text: lines.join(`\n${margin}`) }] }));
  return problem(
    "said-otherwise",
    span,
    { typed: reader.text.slice(span.from, span.to), meant: meant.map(({ lines }) => lines.map((line) => line.trim()).join(" / ")) },
    fixes,
  );
}

/** Enough of what does not fit to be found again. */
const longestQuote = 80;

function shortened(text: string): string {
  return text.length > longestQuote ? `${text.slice(0, longestQuote)}…` : text;
}
