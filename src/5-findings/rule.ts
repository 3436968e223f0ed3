import type { Problem, ProblemOf, RuleId } from "../0-base/problem.js";
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
export interface Rule<Id extends RuleId> {
  readonly id: Id;
  /** Of a finding; most rules give always the same. */
  readonly severity: (values: ProblemOf<Id>["values"]) => Severity;
  readonly title: string;
  /** One sentence: why it matters. */
  readonly why: string;
  /** Where the rule comes from: the published event, the model, or common practice. */
  readonly source: string;
  readonly bad: string;
  readonly good: string;
  readonly check: (judged: Judged) => readonly ProblemOf<Id>[];
  /** What is wrong, with the values seen, and what to do. */
  readonly message: (values: ProblemOf<Id>["values"]) => string;
}

export type AnyRule = { readonly [Id in RuleId]: Rule<Id> }[RuleId];

/** The check of a rule whose problems an earlier stage meets on its way. */
export function metEarlier<Id extends RuleId>(id: Id): Rule<Id>["check"] {
  const own = (one: ProblemOf<RuleId>): one is ProblemOf<Id> => one.rule === id;
  return ({ problems }) => problems.flatMap((one) => (own(one) ? [one] : []));
}

export const always = (severity: Severity) => (): Severity => severity;

/** `a`, `a or b`, `a, b or c`. */
export function either(words: readonly string[], last = "or"): string {
  return words.length < 2 ? (words[0] ?? "") : `${words.slice(0, -1).join(", ")} ${last} ${words.at(-1)}`;
}
