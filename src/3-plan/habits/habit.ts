import { numberWords } from "../../0-base/quantity.js";

/** A way to write what was meant: one line or several, without indentation; inner lines by two spaces. */
export interface Intended {
  readonly title: string;
  readonly lines: readonly string[];
  /** It may be something else: a reader has to choose it. */
  readonly guess?: boolean;
}

/** A line as it was typed, and what of its block it may mean. */
export interface Typed {
  readonly text: string;
  /** Casts that the block names: its pairs, else its athletes. */
  readonly casts: readonly string[];
  readonly pairs: readonly string[];
  /** Of a pair that the block names, its two. */
  readonly twoOf: (pair: string) => readonly string[];
  readonly inRound: boolean;
}

/** What people type under some lines, and what they mean by it. */
export interface Habit {
  readonly under: "steps" | "event" | "team" | "table" | "week" | "log" | "margin" | "any";
  readonly typed: RegExp;
  readonly meant: (match: readonly string[], typed: Typed) => readonly Intended[];
}

/**
 * What no name has in it, as a part of a class: white space and signs. Of ASCII all but letters, digits, `'`, `-` and `_`; of the
 * rest the signs that are typed. Letters by \p{L} would take a fifth of a second to make ready in some two hundred patterns.
 * Nothing here is the other case of a letter (as U+212A is of k), or no pattern that minds no case would know that letter.
 */
const signs = String.raw`\s!-&(-,./:-@\x5b-\x5e\x60\x7b-\xb4\xb6-\xbf×÷\u2000-\u20ff\u2190-\u24b5\u2500-\u2bff\u3000-\u303f`;

/** Sources of patterns: a name, one or more who work together, a time with or without its unit, a number as a word. */
export const name = String.raw`[^${signs}\d'-][^${signs}]*`;
export const cast = String.raw`${name}(?:\s*\+\s*${name})*`;
export const time = String.raw`\d+(?:[.:]\d+)?(?:\s*(?:min|minutes?|s|sec|seconds?|h))?`;
export const numeral = `(?:${numberWords.join("|")}|both)`;

/** One way to write what was meant, under a title of its own; as a single line, under the line itself. */
export const one = (title: string, ...lines: readonly string[]): readonly Intended[] => [{ title, lines }];
export const guess = (meant: readonly Intended[]): readonly Intended[] => meant.map((one) => ({ ...one, guess: true }));
export const line = (text: string): readonly Intended[] => one(`write ${text}`, text);
/** A number in digits, however it was typed. */
export const numberOf = (text: string): string =>
  /both/i.test(text) ? "2" : numberWords.includes(text.toLowerCase()) ? `${numberWords.indexOf(text.toLowerCase()) + 1}` : text;
/** A time that was typed, a bare number being s, or min. */
export const inSeconds = (amount: string): string => inUnit(amount, "s");
export const inMinutes = (amount: string): string => inUnit(amount, "min");

/** A time as it was typed, by the language's units; a bare number by the unit that is usual there. */
function inUnit(amount: string, usual: string): string {
  const [, number = "", unit = ""] = /^([\d.:]+)\s*([a-z]*)$/i.exec(amount.trim()) ?? [];
  if (number.includes(":")) return number;
  return `${number} ${unit === "" ? usual : /^m/i.test(unit) ? "min" : /^h/i.test(unit) ? "h" : "s"}`;
}

/** A line in the language's own words is known as it stands. */
export function known(typed: string, meant: string): readonly Intended[] {
  return typed === meant ? [] : line(meant);
}

/** More parts, or steps of a ladder, than anybody writes out. */
export const mostWrittenOut = 20;

/** A set in parts; nothing for a single one. */
export function inParts(who: string, parts: readonly number[], rest: string): readonly Intended[] {
  const reps = parts.reduce((sum, part) => sum + part, 0);
  return parts.length < 2 ? [] : line(`${who} ${reps} as ${parts.join("+")} rest ${inSeconds(rest)}`);
}
