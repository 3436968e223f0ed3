import { isSlip, nearest } from "../0-base/nearest.js";
import { problem, type ProblemOf } from "../0-base/problem.js";
import type { Word } from "./parts.js";
import { printName } from "./print-parts.js";

/** A movement's or hold's name without its plural s: `squats` and `squat` are one; `press` has none. */
export function subjectKey(name: string): string {
  return name.length > 2 && /[^s]s$/.test(name) ? name.slice(0, -1) : name;
}

/** A name as an expression writes it: spaces and hyphens are `_`. */
export function formulaName(name: string): string {
  return name.replace(/[\s-]/g, "_");
}

/** A name that nothing declares; each near one is a fix. */
export function nameUnknown(what: string, name: Word, known: Iterable<string>): ProblemOf<"unknown-name"> {
  const near = nearest(name.text, known);
  return problem(
    "unknown-name",
    name.span,
    { what, name: name.text, near },
    near.map((text) => ({
      title: `write ${text}`,
      guess: !isSlip(name.text, text),
      edits: [{ span: name.span, text: printName({ text }) }],
    })),
  );
}

/**
 * `where` the other one is: a document, a team; empty for the same block. `free` is a name that nobody bears yet, where the
 * one declared here may take it: nothing can have meant it by its old name.
 */
export function twinDeclared(what: string, name: Word, where = "", free: string | null = null): ProblemOf<"declared-twice"> {
  const fixes =
    free === null ? [] : [{ title: `call it ${free}`, guess: true, edits: [{ span: name.span, text: printName({ text: free }) }] }];
  return problem("declared-twice", name.span, { what, name: name.text, where }, fixes);
}

/** `name`, or with the first number that makes it free. */
export function freeName(name: string, taken: { has(name: string): boolean }): string {
  for (let count = 1; ; count += 1) {
    const free = count === 1 ? name : `${name.replace(/ \d+$/, "")} ${count}`;
    if (!taken.has(free)) return free;
  }
}

/** The athlete that a name means: as it is declared; in other capitals, where that is one only. Null for nobody. */
export function athleteNamed(name: string, athletes: ReadonlyMap<string, unknown>): string | null {
  if (athletes.has(name)) return name;
  const wanted = name.toLowerCase();
  const alike = [...athletes.keys()].filter((known) => known.toLowerCase() === wanted);
  return alike.length === 1 ? (alike[0] ?? null) : null;
}
