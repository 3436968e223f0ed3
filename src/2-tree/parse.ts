import { type ChangedRange, type Tree, TreeFragment } from "@lezer/common";
import type { Edit } from "../0-base/problem.js";
import { planParser } from "./parser.js";

/** A text with its tree. Parsing never fails: what cannot be read is Junk or Missing in the tree. */
export interface Parsed {
  readonly text: string;
  readonly tree: Tree;
  readonly fragments: readonly TreeFragment[];
}

/** The longest line that is read, in UTF-16 units. */
export const longestLine = 1000;
const tooLong = new RegExp(`[^\\n]{${longestLine + 1},}`, "g");

/** What the parser sees: a line that is too long is one that cannot be read, whatever it says. Offsets stay as they are. */
function seen(text: string): string {
  return text.replace(tooLong, (line) => "\u0001".repeat(line.length));
}

export function parse(text: string): Parsed {
  const tree = planParser.parse(seen(text));
  return { text, tree, fragments: TreeFragment.addTree(tree) };
}

/** The tree of `text`, reusing what one edit of an earlier text left alone; equal to a full parse. */
export function reparse(before: Parsed, edit: Edit, text: string): Parsed {
  const change: ChangedRange = {
    fromA: edit.span.from,
    toA: edit.span.to,
    fromB: edit.span.from,
    toB: edit.span.from + edit.text.length,
  };
  const kept = TreeFragment.applyChanges(before.fragments, [change]);
  const tree = planParser.parse(seen(text), kept);
  return { text, tree, fragments: TreeFragment.addTree(tree, kept) };
}
