/**
 * What a regular token cannot do: line ends, indentation, the keyword that opens a line, free text, words that are
 * keywords only where the grammar can use one, and the two tokens that keep a broken line to itself.
 */
import { ContextTracker, ExternalTokenizer, type InputStream, type Stack } from "@lezer/lr";
import * as terms from "../src/2-tree/generated/parser.terms.js";

const newlineChar = 10;
const tab = 9;
const carriageReturn = 13;
const space = 32;
const slash = 47;
const hash = 35;
const greater = 62;
const tabWidth = 4;

class Indent {
  readonly hash: number;
  constructor(
    readonly parent: Indent | null,
    readonly depth: number,
  ) {
    this.hash = ((parent ? parent.hash * 31 : 0) + depth * 17 + 1) | 0;
  }
}

function widthOf(code: number, before: number): number {
  return code === tab ? tabWidth - (before % tabWidth) : 1;
}

/** The open indents at each point of a parse, innermost first; a tab reaches to the next multiple of four. */
export const trackIndent = new ContextTracker<Indent>({
  start: new Indent(null, 0),
  shift(context, term, stack, input) {
    if (term === terms.dedent) return context.parent ?? context;
    if (term !== terms.indent) return context;
    let depth = 0;
    for (let ahead = 0; input.pos + ahead < stack.pos; ahead += 1) depth += widthOf(input.peek(ahead), depth);
    return new Indent(context, depth);
  },
  hash: (context) => context.hash,
});

function atLineStart(input: InputStream): boolean {
  const before = input.peek(-1);
  return before < 0 || before === newlineChar;
}

function isBlank(code: number): boolean {
  return (
    code === space ||
    code === tab ||
    code === carriageReturn ||
    code === 0xfeff ||
    code === 0xa0 ||
    (code >= 0x2000 && code <= 0x200b) ||
    code === 0x202f ||
    code === 0x3000
  );
}

function blanksAhead(input: InputStream): number {
  let ahead = 0;
  while (isBlank(input.peek(ahead))) ahead += 1;
  return ahead;
}

function lineEnd(input: InputStream, from: number): number {
  let ahead = from;
  for (let code = input.peek(ahead); code >= 0 && code !== newlineChar; code = input.peek(ahead)) ahead += 1;
  return ahead;
}

/** Ends of lines; and whole lines that carry no indentation: blank ones, comments, headings and notes. */
export const newlines = new ExternalTokenizer(
  (input, stack) => {
    if (atLineStart(input)) {
      const start = blanksAhead(input);
      const first = input.peek(start);
      const wholeLine =
        first === hash
          ? terms.Heading
          : first === greater
            ? terms.Note
            : first === slash && input.peek(start + 1) === slash
              ? terms.blankLine
              : null;
      if (wholeLine !== null) {
        const end = lineEnd(input, start);
        input.acceptToken(wholeLine, input.peek(end) === newlineChar ? end + 1 : end);
      } else if (first === newlineChar) input.acceptToken(terms.blankLine, start + 1);
      else if (first < 0 && start > 0) input.acceptToken(terms.blankLine, start);
      if (wholeLine !== null || first >= 0 || start > 0) return;
    }
    if (input.next === newlineChar) input.acceptToken(terms.newline, 1);
    else if (input.next === carriageReturn && input.peek(1) === newlineChar) input.acceptToken(terms.newline, 2);
    else if (input.next < 0 && stack.canShift(terms.newline)) input.acceptToken(terms.newline, 0);
  },
  { contextual: true },
);

/** Steps in and out; at the end of the text every open indent is closed. */
export const indentation = new ExternalTokenizer(
  (input, stack) => {
    const context: unknown = stack.context;
    if (!(context instanceof Indent)) return;
    if (input.next < 0) {
      if (context.parent && stack.canShift(terms.dedent)) input.acceptToken(terms.dedent, 0);
      return;
    }
    if (!atLineStart(input)) return;
    let depth = 0;
    let ahead = 0;
    for (let code = input.peek(0); code === space || code === tab; code = input.peek(ahead)) {
      depth += widthOf(code, depth);
      ahead += 1;
    }
    if (depth < context.depth) input.acceptToken(terms.dedent, 0);
    else if (depth > context.depth) input.acceptToken(terms.indent, ahead);
  },
  { contextual: true },
);

/** The words that open lines are the tokens that the grammar calls `kw…`. */
const headTerms: ReadonlyMap<string, number> = new Map(
  Object.entries(terms).flatMap(([token, term]) => (token.startsWith("kw") ? [[token.slice(2).toLowerCase(), term] as const] : [])),
);

/** The words that open a line, for completion and for naming the nearest one. */
export const headWords: readonly string[] = [...headTerms.keys()];

/** `log lift  unbroken  16 14` is a row about log lifts, not a log: words, a measure, then a value. */
const abilityRow = /^[ \t]*[\p{L}"][^\d@=(]*?[ \t](unbroken|cycle|hold|max|recovery|fade|in[ \t]+[\d:.]+[ \t]*\p{L}*)[ \t]+[@\d(-]/u;

/** The keyword that opens a line, taken only as the line's first word. */
export const heads = new ExternalTokenizer((input) => {
  for (let back = -1; ; back -= 1) {
    const code = input.peek(back);
    if (code < 0 || code === newlineChar) break;
    if (!isBlank(code)) return;
  }
  let size = 0;
  let found = "";
  for (let code = input.peek(0); isLetter(code); code = input.peek(size)) {
    found += String.fromCharCode(code);
    size += 1;
  }
  const capital = /^[A-Z]/.test(found);
  const word = capital ? found.toLowerCase() : found;
  const term = headTerms.get(word);
  if (term === undefined || /[\p{L}\p{N}_'+-]/u.test(String.fromCodePoint(Math.max(0, input.peek(size))))) return;
  let rest = found;
  const end = lineEnd(input, size);
  for (let ahead = size; ahead < end; ahead += 1) rest += String.fromCharCode(input.peek(ahead));
  if (abilityRow.test(rest)) return;
  // A capital may be a name's: with a number behind it, it opens a line only where that takes a number.
  if (capital && !(beforeNumber.has(word) ? /^[A-Za-z]+[ \t]*(?:$|[\d"\p{L}])/u : /^[A-Za-z]+[ \t]+["\p{L}]/u).test(rest)) return;
  input.acceptToken(term, size);
});

/** Words that open lines which go on with a number, or with nothing. */
const beforeNumber = new Set([
  "cap",
  "handover",
  "setup",
  "repeat",
  "rest",
  "window",
  "stage",
  "round",
  "finish",
  "working",
  "due",
  "keep",
  "open",
  "felt",
]);

function isLetter(code: number): boolean {
  return (code >= 97 && code <= 122) || (code >= 65 && code <= 90);
}

/** Up to a comment or the end of the line; trailing blanks stay outside. */
function restOfLine(input: InputStream): number {
  let size = 0;
  for (let ahead = 0; ; ahead += 1) {
    const code = input.peek(ahead);
    if (code < 0 || code === newlineChar) return size;
    if (code === slash && input.peek(ahead + 1) === slash && (ahead === 0 || isBlank(input.peek(ahead - 1)))) return size;
    if (!isBlank(code)) size = ahead + 1;
  }
}

/** The free text of a `standard` line. */
export const text = new ExternalTokenizer(
  (input, stack) => {
    if (!stack.canShift(terms.Text) || isBlank(input.next)) return;
    const size = restOfLine(input);
    if (size > 0) input.acceptToken(terms.Text, size);
  },
  { contextual: true },
);

/** The keywords inside lines: the token of each, with all its spellings. Here and nowhere else: highlighting and quoting ask. */
export const keywords: readonly (readonly [token: keyof typeof terms, ...spellings: string[]])[] = [
  ["Woman", "woman", "Woman", "women"],
  ["Man", "man", "men", "Man"],
  ["On", "on"],
  ["Like", "like"],
  ["At", "at"],
  ["Most", "most"],
  ["For", "for"],
  ["Of", "of"],
  ["Until", "until"],
  ["When", "when"],
  ["Rounds", "round", "rounds"],
  ["RestWord", "rest"],
  ["PlanWord", "plan"],
  ["Again", "again"],
  ["Done", "done"],
  ["Broke", "broke"],
  ["Dropped", "dropped"],
  ["The", "the"],
  ["HoldWord", "hold", "holds"],
  ["NoRep", "no-rep"],
  ["Unbroken", "unbroken"],
  ["Ready", "ready"],
  ["Cycle", "cycle"],
  ["In", "in"],
  ["Max", "max"],
  ["Recovery", "recovery"],
  ["Fade", "fade"],
  ["Each", "each"],
  ["Sync", "sync"],
  ["Together", "together"],
  ["Shared", "shared"],
  ["AsWord", "as"],
  ["WhileWord", "while"],
  ["Least", "least"],
  ["AwayWord", "away"],
  ["EffortWord", "effort"],
  ["WeightWord", "weight"],
  ["About", "about"],
  ["EveryWord", "every"],
  ["Will", "will"],
  ["Costs", "costs"],
  ["TimeWord", "time"],
  ["StageWord", "stage"],
  ["Unscored", "unscored"],
  ["WithinWord", "within"],
  ["ThenWord", "then"],
];

const keywordTerms: ReadonlyMap<string, number> = new Map(
  keywords.flatMap(([token, ...spellings]) => spellings.map((spelling) => [spelling, terms[token]] as const)),
);
/** Spellings of units that a line accepts, each with the unit it means. */
export const unitSpellings: ReadonlyMap<string, string> = new Map([
  ["kg", "kg"],
  ["kgs", "kg"],
  ["lb", "lb"],
  ["lbs", "lb"],
  ["s", "s"],
  ["sec", "s"],
  ["secs", "s"],
  ["second", "s"],
  ["seconds", "s"],
  ["min", "min"],
  ["mins", "min"],
  ["minute", "min"],
  ["minutes", "min"],
  ["h", "h"],
  ["hour", "h"],
  ["hours", "h"],
  ["rep", "rep"],
  ["reps", "rep"],
  ["m", "m"],
  ["metre", "m"],
  ["metres", "m"],
  ["meter", "m"],
  ["meters", "m"],
  ["cal", "cal"],
  ["cals", "cal"],
  ["calorie", "cal"],
  ["calories", "cal"],
]);

/** A word is a keyword only where the grammar could go on with that keyword; elsewhere it is part of a name. */
export function keyword(value: string, stack: Stack): number {
  const term = unitSpellings.has(value) ? terms.Unit : keywordTerms.get(value);
  return term !== undefined && stack.canShift(term) ? term : -1;
}

/** Junk: what is left of a line that cannot be read. Missing: the nothing where a line stops short. */
export const fallback = new ExternalTokenizer(
  (input, stack) => {
    const size = restOfLine(input);
    if (size > 0) {
      if (stack.canShift(terms.Junk)) input.acceptToken(terms.Junk, size);
    } else if (stack.canShift(terms.Missing)) input.acceptToken(terms.Missing, 0);
  },
  { fallback: true, contextual: true },
);
