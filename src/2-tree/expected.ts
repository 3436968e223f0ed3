import type { SyntaxNode, Tree } from "@lezer/common";
import { headWords } from "../../grammar/tokens.js";
import { isMisspelt, nearest } from "../0-base/nearest.js";
import { planParser } from "./parser.js";

/** What can stand at a place in a line: a sample that is tried there, and how a coach would call it. */
const samples: readonly (readonly [sample: string, name: string])[] = [
  ["x", "a name"],
  ["7", "a number"],
  ["7 kg", "a load such as 20 kg"],
  ["7 min", "a time such as 40 s or 2:30"],
  ["7 %", "a share such as 25 %"],
  ["2026-03-14", "a date such as 2026-03-14"],
  ['"x"', "a name in quotes"],
  ["(7)", "an expression in parentheses"],
  ["min", "a unit of time such as s or min"],
  ["kg", "kg or lb"],
  ["ready", "ready"],
  ["+ x", "+"],
  ["= 7", "="],
  [")", ")"],
  [", x", "a comma"],
  ["for x", "for"],
  ["on x", "on"],
  ["on 2026-03-14", "on"],
  ["like x", "like"],
  ["@ 7 kg", "@"],
  ["each", "each"],
  ["in sync", "in sync"],
  ["together", "together"],
  ["shared", "shared"],
  ["as 3+2", "as"],
  ["while x hold", "while"],
  ["hold", "hold"],
  ["until 2:00", "until"],
  ["until ready", "until"],
  ["round", "round"],
  ["rest", "rest"],
  ["unbroken", "unbroken"],
  ["at most 7", "at most"],
  ["at 7", "at"],
  ["at 2:00", "at"],
  ["woman", "woman or man"],
  ["unbroken 7", "a measure such as unbroken"],
  ["under 7", "under, over, at most, at least or is"],
  ["done 2:00", "done"],
];

/** Words that may stand inside a line, each with what would make the line whole behind it. */
const innerWords: readonly (readonly [word: string, rest: string])[] = [
  ["for", "x"],
  ["on", "x"],
  ["on", "2026-03-14"],
  ["like", "x"],
  ["each", ""],
  ["in sync", ""],
  ["together", ""],
  ["shared", ""],
  ["as", "3+2"],
  ["while", "x hold"],
  ["while", "1 hold x"],
  ["hold", ""],
  ["hold", "x"],
  ["hold", "7"],
  ["until", "2:00"],
  ["until", "ready"],
  ["ready", ""],
  ["round", ""],
  ["rest", ""],
  ["rest", "7 s"],
  ["again", ""],
  ["plan", "x"],
  ["unbroken", ""],
  ["unbroken", "7"],
  ["cycle", "7"],
  ["in", "7 min 7"],
  ["max", "7"],
  ["recovery", "7"],
  ["fade", "7"],
  ["at most", "7"],
  ["at", "7"],
  ["at", "2:00"],
  ["woman", ""],
  ["man", ""],
  ["done", "2:00"],
  ["broke", "at 7"],
  ["dropped", "the hold at 2:00"],
  ["no-rep", "7"],
  ["under", "7"],
  ["over", "7"],
  ["at least", "7"],
  ["is", "7"],
  ["s", ""],
  ["min", ""],
  ["reps", ""],
  ["kg", ""],
  ["lb", ""],
  ["m", ""],
];

/** The words with which a line could go on behind `before`, its part so far: those that are read as words there, not as names. */
export function wordsAfter(before: string): readonly string[] {
  const opening = /^\S+/.exec(before)?.[0] ?? "";
  const isWord = (word: string, rest: string): boolean => {
    const line = `${before} ${word} ${rest}`;
    const tree = wholeTree(line);
    if (!tree) return false;
    for (let node: SyntaxNode | null = tree.resolveInner(before.length + 1, 1); node; node = node.parent)
      if (nameNodes.has(node.name)) return false;
    return !headWords.includes(opening) || tree.resolveInner(0, 1).name === "Head";
  };
  return [...new Set(innerWords.filter(([word, rest]) => isWord(word, rest)).map(([word]) => word))];
}

const nameNodes = new Set(["Name", "RuleWord", "Choice", "Athlete", "Part", "Reference"]);

/** Whether a line by itself reads up to its end. */
export function reads(line: string): boolean {
  return wholeTree(line) !== null;
}

/** The tree of a line that reads up to its very end; null for another. */
function wholeTree(line: string): Tree | null {
  const tree = planParser.parse(line);
  let whole = true;
  tree.iterate({
    enter(node) {
      if (node.type.isError || node.name === "Junk" || node.name === "Missing") whole = false;
    },
  });
  return whole ? tree : null;
}

/** What a line could have gone on with where it stopped making sense, in words; and the opening words it may have meant. */
export interface Expectation {
  readonly expected: readonly string[];
  readonly near: readonly string[];
  /** Whether the line would be whole without what follows. */
  readonly ends: boolean;
}

const mostNamed = 4;

/** Lines about a time: the grammar takes any quantity there, and tells of the wrong unit later. */
const timeHeads = new Set(["cap", "handover", "setup", "rest", "finish", "window", "repeat"]);
const notTimes = new Set(["a load such as 20 kg", "kg or lb", "a measure such as unbroken", "a number"]);

/**
 * Found by trying: each sample is put behind the part of the line that was read. `before` is that part, `junk` the rest.
 */
export function expectationAt(before: string, junk: string): Expectation {
  const opening = /^\s*([\p{L}-]+)/u.exec(before.trim() === "" ? junk : before)?.[1] ?? "";
  const near =
    headWords.includes(opening) || opening.length < 4
      ? []
      : nearest(
          opening,
          // Shorter ones are near to everything: to “Ines” as to “once”.
          headWords.filter((word) => word.length > 3),
        ).filter((word) => isMisspelt(opening.toLowerCase(), word));
  const found = new Set<string>();
  const wanted = timeHeads.has(opening) ? samples.filter(([, name]) => !notTimes.has(name)) : samples;
  if (before.trim() !== "") {
    for (const [sample, name] of wanted) {
      if (reads(`${before.trimEnd()} ${sample}`)) found.add(name);
      if (found.size === mostNamed) break;
    }
  }
  return { expected: [...found], near, ends: before.trim() !== "" && reads(before) };
}
