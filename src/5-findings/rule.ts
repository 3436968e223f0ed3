import type { Problem, Values } from "../0-base/problem.js";
import type { Line } from "../3-plan/ast.js";
import type { Evaluation } from "../4-timeline/evaluate.js";
import type { PlanResult } from "../4-timeline/kept.js";

export type Severity = "error" | "warning" | "note";

/** What a rule sees: one block, what earlier stages found in it, its plan if it is one, and the notebook around it. */
export interface Judged {
  readonly line: Line;
  /** The block's text. */
  readonly text: string;
  readonly problems: readonly Problem[];
  readonly plan: PlanResult | null;
  readonly evaluation: Evaluation;
}

/** One rule. `bad` marks with «» the characters its one finding stands on; `good` has none of its findings. */
export interface Rule {
  readonly id: string;
  /** Of a finding; most rules give always the same. */
  readonly severity: (values: Values) => Severity;
  readonly title: string;
  /** One sentence: why it matters. */
  readonly why: string;
  /** Where the rule comes from: the published event, the model, or common practice. */
  readonly source: string;
  readonly bad: string;
  readonly good: string;
  readonly check: (judged: Judged) => readonly Problem[];
  /** What is wrong, with the values seen, and what to do. */
  readonly message: (values: Values) => string;
}

/** The check of a rule whose problems an earlier stage meets on its way. */
export function metEarlier(id: string): Rule["check"] {
  return ({ problems }) => problems.filter(({ rule }) => rule === id);
}

export const always = (severity: Severity) => (): Severity => severity;

/** A value of a sentence as words. */
export function text(values: Values, name: string): string {
  const value = values[name];
  return typeof value === "string" ? value : String(value ?? "");
}

export function amount(values: Values, name: string): number {
  const value = values[name];
  return typeof value === "number" ? value : 0;
}

export function list(values: Values, name: string): readonly string[] {
  const value = values[name];
  return Array.isArray(value) ? value : [];
}

/** `a`, `a or b`, `a, b or c`. */
export function either(words: readonly string[], last = "or"): string {
  return words.length < 2 ? (words[0] ?? "") : `${words.slice(0, -1).join(", ")} ${last} ${words.at(-1)}`;
}
