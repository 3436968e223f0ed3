import type { Span } from "./span.js";

/** What each rule's sentence is made of, by the id of the rule. Every rule's file adds its own. */
export interface ProblemValues {}

export type RuleId = keyof ProblemValues;

export interface Edit {
  readonly span: Span;
  readonly text: string;
}

/** A change of text that settles a problem. `guess`: something else may be meant, so that only the coach takes it. */
export interface Fix {
  readonly title: string;
  readonly guess?: boolean;
  readonly edits: readonly Edit[];
}

/** Something the user can act on, as data: the id of its rule, where it is, and the values of its sentence. */
export interface ProblemOf<Id extends RuleId> {
  readonly rule: Id;
  readonly span: Span;
  readonly values: Readonly<ProblemValues[Id]>;
  readonly fixes: readonly Fix[];
}

/** A problem of any rule: told apart by its id. */
export type Problem = { readonly [Id in RuleId]: ProblemOf<Id> }[RuleId];

export function problem<Id extends RuleId>(
  rule: Id,
  span: Span,
  values: ProblemOf<Id>["values"],
  fixes: readonly Fix[] = [],
): ProblemOf<Id> {
  return { rule, span, values, fixes };
}
