import { headWords } from "../../grammar/tokens.js";
import type { Edit } from "../0-base/problem.js";
import { isGroup } from "./groups.js";
import { formulaName } from "./names.js";
import { keyOf, type Occurrence } from "./occurrences.js";
import { printName, quoted } from "./print-parts.js";

/** What renaming comes to: the edits of each document and how many places they are; or why it cannot be. */
export type Renaming =
  | { readonly ok: true; readonly edits: ReadonlyMap<string, readonly Edit[]>; readonly places: number }
  | { readonly ok: false; readonly reason: string };

/**
 * Renames one thing everywhere in the notebook. A place that names two things at once (a stage called after its
 * movement) has both renamed. Refused where the new name is no name, or another thing's.
 */
export function rename(names: ReadonlyMap<string, readonly Occurrence[]>, target: Occurrence, wanted: string): Renaming {
  const to = wanted.trim().replace(/\s+/g, " ");
  if (!/^\p{L}[\p{L}\p{M}\p{N}'_\s-]*$/u.test(to))
    return { ok: false, reason: "A name begins with a letter; letters, digits, blanks, ' and - may follow." };
  if (target.kind === "athlete" && to.includes(" ")) return { ok: false, reason: "The name of an athlete is one word." };
  if ((target.kind === "athlete" || target.kind === "pair") && isGroup(to))
    return { ok: false, reason: `“${to}” is some or all of the team. Take another name.` };
  const same = sameThings(names, target);
  const later = new Set([...same.values()].map((one) => keyOf({ ...one, name: to })));
  const taken = [...names.values()].flat().find((one) => !same.has(keyOf(one)) && later.has(keyOf(one)));
  if (taken) return { ok: false, reason: `The name “${taken.name}” is taken by another ${taken.kind}.` };
  const edits = new Map<string, readonly Edit[]>();
  for (const [path, occurrences] of names) {
    const places = new Map(occurrences.filter((one) => same.has(keyOf(one))).map((one) => [one.span.from, one]));
    if (places.size > 0)
      edits.set(
        path,
        [...places.values()].map((one) => ({ span: one.span, text: written(one, target, to) })),
      );
  }
  return { ok: true, edits, places: [...edits.values()].reduce((sum, { length }) => sum + length, 0) };
}

/** The things that share a place with the target, by key, and those that share a place with these. */
function sameThings(names: ReadonlyMap<string, readonly Occurrence[]>, target: Occurrence): ReadonlyMap<string, Occurrence> {
  const places = new Map<string, Occurrence[]>();
  for (const [path, occurrences] of names) {
    for (const one of occurrences) places.set(`${path}:${one.span.from}`, [...(places.get(`${path}:${one.span.from}`) ?? []), one]);
  }
  const shared = [...places.values()].filter(({ length }) => length > 1);
  const found = new Map([[keyOf(target), target]]);
  for (let before = 0; before < found.size;) {
    before = found.size;
    for (const things of shared) if (things.some((one) => found.has(keyOf(one)))) for (const one of things) found.set(keyOf(one), one);
  }
  return found;
}

/** The new name as this place writes it: in a formula with `_`, with the plural s that stood there, in quotes where it needs them. */
function written({ name, inFormula, opensLine }: Occurrence, target: Occurrence, to: string): string {
  if (inFormula) return formulaName(to);
  const plural = name !== target.name && name === `${target.name}s` && !to.endsWith("s");
  const text = plural ? `${to}s` : to;
  return opensLine && isHead(text) ? quoted({ text }) : printName({ text });
}

/** Whether a name begins as a line of another kind does: `team`, `rest day`. */
function isHead(name: string): boolean {
  return headWords.includes(name.split(" ")[0] ?? "");
}
