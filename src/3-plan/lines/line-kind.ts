import type { SyntaxNode } from "@lezer/common";
import type { Line } from "../ast.js";
import type { Clauses, Expression, Word } from "../parts.js";
import type { Quoting } from "../print-parts.js";
import type { Reader } from "../reader.js";

/** Every kind of line that can be read. */
export type Kind = Exclude<Line["kind"], "broken">;
type LineOf<K extends Kind> = Extract<Line, { readonly kind: K }>;
/** A line without its place and what stands under it. */
type Bare<L> = L extends Line ? Omit<L, "span" | "body"> : never;

/** All that is known of one kind of line. */
export interface LineKind<K extends Kind = Kind> {
  readonly kind: K;
  /** Its node in the grammar. Two kinds may share one: the first that reads it has it. */
  readonly node: string;
  /** The words that open it, where it is opened by words of its own. */
  readonly head?: string;
  /** The kinds under which it may stand; null is the margin. */
  readonly under: readonly (Kind | null)[];
  /** Null where a part that the grammar could not insist on is not there. */
  read(node: SyntaxNode, reader: Reader): Bare<LineOf<K>> | null;
  /** The line as text; `quote` writes its names. */
  print(line: LineOf<K>, quote: Quoting): string;
  /** Tells the names it declares and uses. */
  names?(line: LineOf<K>, found: FoundNames): void;
  /** What its words do, a sentence each: shown where the pointer rests and beside what is offered. */
  readonly help?: Readonly<Record<string, string>>;
  /** Blocks that begin with it, offered where nothing is typed yet. */
  readonly snippets?: readonly Snippet[];
  /** Lines of this kind in the house style. */
  readonly samples: readonly string[];
}

/** What a name in a document can name. A movement and a hold are told apart; a stage and a pair belong to one event or plan. */
export type NameKind =
  "team" | "athlete" | "movement" | "hold" | "event" | "stage" | "station" | "plan" | "pair" | "lane" | "week" | "value" | "body part";

/** Where a line tells its names. */
export interface FoundNames {
  /** The plan around the line, and the event of it or around it. */
  readonly plan: string | null;
  readonly event: string | null;
  readonly isAthlete: (name: string) => boolean;
  readonly add: (kind: NameKind, word: Word | null, declares?: boolean, scope?: string | null) => void;
  /** Athletes, or pairs of the plan. */
  readonly who: (words: readonly Word[]) => void;
  readonly clauses: (clauses: Clauses) => void;
  readonly formula: (expression: Expression) => void;
}

/** The beginning of a block, to be filled in. `#{…}` is a place to type in, with what may stand there. */
export interface Snippet {
  readonly word: string;
  readonly says: string;
  readonly text: string;
}
