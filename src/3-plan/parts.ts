/** Parts of lines: names, values, sizes, clauses. Spans count from the start of the block. */
import type { Unit } from "../0-base/quantity.js";
import type { Span } from "../0-base/span.js";

/** A name as it stands, spaces made single and quotes taken off. */
export interface Word {
  readonly text: string;
  readonly span: Span;
}

/** A number as typed; `clock` where it was written `2:30` (the amount is then in seconds). */
export interface Value {
  readonly kind: "value";
  readonly amount: number;
  readonly unit: Unit | null;
  readonly clock: boolean;
  /** Where it was worked out from an expression: what was typed. */
  readonly typed?: Expression;
  readonly span: Span;
}

export type Operator = "+" | "-" | "*" | "/" | "^";

export type Expression =
  | Value
  | { readonly kind: "reference"; readonly path: readonly string[]; readonly span: Span }
  | { readonly kind: "binary"; readonly operator: Operator; readonly left: Expression; readonly right: Expression; readonly span: Span }
  | { readonly kind: "negative"; readonly of: Expression; readonly span: Span }
  | { readonly kind: "convert"; readonly of: Expression; readonly unit: Word; readonly span: Span }
  | { readonly kind: "measured"; readonly amount: number; readonly unit: Word; readonly span: Span }
  | { readonly kind: "call"; readonly name: Word; readonly inputs: readonly Expression[]; readonly span: Span }
  | { readonly kind: "paren"; readonly of: Expression; readonly span: Span };

/** A man's and a woman's load; both the same where one is given. */
export interface Load {
  readonly man: number;
  readonly woman: number;
  readonly unit: "kg" | "lb";
  readonly span: Span;
}

export type How = "each" | "in sync" | "together" | "shared";

export type Size =
  | { readonly kind: "number"; readonly value: Value; readonly span: Span }
  | { readonly kind: "expression"; readonly of: Expression; readonly span: Span }
  | { readonly kind: "percent"; readonly fraction: number; readonly span: Span }
  | {
      readonly kind: "ladder";
      readonly steps: readonly number[];
      /** The steps are percentages of each one's own best. */
      readonly ofBest: boolean;
      readonly again: boolean;
      readonly span: Span;
    };

/** `10 as 4+3+3 rest 5 s` */
export interface BrokenSet {
  readonly parts: readonly number[];
  readonly rest: Value | null;
  readonly span: Span;
}

/** `, swing as 8+8 rest 4 s` behind a round: one of its items, broken. */
export interface BrokenItem {
  readonly movement: Word;
  readonly broken: BrokenSet;
}

/** `while 1 hold stone @ 60/40 kg` in an event, `while Marta hold` in a plan. */
export interface WhileClause {
  readonly count: number | null;
  readonly who: readonly Word[];
  readonly hold: Word | null;
  readonly load: Load | null;
  readonly span: Span;
}

/** `every 10 reps`; or at will, whenever they like. */
export type HandChange = { readonly kind: "every"; readonly reps: Value } | { readonly kind: "at will" };

/** Somebody in a turn with a number of reps of their own. */
export interface Beside {
  readonly who: readonly Word[];
  readonly size: Size;
}

export interface Clauses {
  readonly load: Load | null;
  readonly how: How | null;
  readonly broken: BrokenSet | null;
  readonly hold: WhileClause | null;
}

export type RestSize =
  | { readonly kind: "time"; readonly value: Value }
  | { readonly kind: "share"; readonly fraction: number; readonly span: Span }
  | { readonly kind: "ready" }
  /** `rest 1:1`: so many times as long as the turn before took. */
  | { readonly kind: "ratio"; readonly work: number; readonly rest: number };

export type MeasureName = "unbroken" | "cycle" | "in" | "hold" | "max" | "recovery" | "fade";

export interface Measure {
  readonly name: MeasureName;
  readonly within: Value | null;
  readonly span: Span;
}

export type Cell =
  | Value
  | { readonly kind: "unknown"; readonly unit: Unit | null; readonly span: Span }
  | { readonly kind: "paren"; readonly of: Expression; readonly span: Span };

export type Comparison = "under" | "over" | "at most" | "at least" | "is";

export type Category = "woman" | "man";

/** Hours of a day as typed, `16:00` each. */
export interface Hours {
  readonly from: string;
  readonly to: string;
}
