import type { Span } from "./span.js";

/** What a problem's sentence is made of. */
export type Values = Readonly<Record<string, string | number | boolean | readonly string[]>>;

export interface Edit {
  readonly span: Span;
  readonly text: string;
}

/** A change of text that settles a problem. */
export interface Fix {
  readonly title: string;
  readonly edits: readonly Edit[];
}

/** Something the user can act on, as data: the id of its rule, where it is, and the values of its sentence. */
export interface Problem {
  readonly rule: string;
  readonly span: Span;
  readonly values: Values;
  readonly fixes: readonly Fix[];
}

export function problem(rule: string, span: Span, values: Values = {}, fixes: readonly Fix[] = []): Problem {
  return { rule, span, values, fixes };
}
