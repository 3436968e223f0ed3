/** What the page and its worker say to each other. Offsets count from the start of the document at that version. */
import type { Finding } from "../5-findings/judge.js";
import type { Document } from "../1-text/document.js";
import type { Explanation } from "../7-view/answer.js";
import type { TableRead } from "../3-plan/ability-table.js";
import type { Renaming } from "../3-plan/rename.js";
import type { LearntPage } from "../7-view/learnt.js";
import type { FirstStep } from "../7-view/first-steps.js";
import type { Completions } from "../7-view/completion.js";
import type { Help, Place } from "../7-view/name-help.js";
import type { PlanComparison } from "../7-view/comparison.js";
import type { Proposal } from "../7-view/proposals.js";
import type { Picture } from "../7-view/picture.js";
import type { WeekIdeas } from "../7-view/week-ideas.js";
import type { WeekPicture } from "../7-view/week-picture.js";
import type { Span } from "../0-base/span.js";
import type { TrialPoint } from "../7-view/number-trial.js";
import type { MoverLine, WhatTurns } from "../7-view/why-words.js";
import type { FloorPlan, Mark } from "../7-view/floor.js";
import type { Said } from "../7-view/said.js";

export interface TextEdit {
  readonly from: number;
  readonly to: number;
  readonly text: string;
}

export type ToWorker =
  | {
      readonly kind: "open";
      readonly documents: readonly { readonly path: string; readonly text: string }[];
      readonly path: string;
      readonly version: number;
    }
  | { readonly kind: "edit"; readonly path: string; readonly edits: readonly TextEdit[]; readonly version: number }
  | { readonly kind: "replace"; readonly path: string; readonly text: string }
  | { readonly kind: "remove"; readonly path: string }
  | { readonly kind: "cursor"; readonly path: string; readonly offset: number }
  | { readonly kind: "ask"; readonly id: number; readonly question: Question };

/** What few visits ask. */
export type RareQuestion = "copy" | "template" | "first step" | "send" | "received" | "table" | "rows" | "cards" | "floor";

/** What the page asks about a place of a document as it stands now. */
export interface Question {
  readonly about: Reply["about"];
  readonly path: string;
  readonly offset: number;
  /**
   * The new name, where one is to be given; of a template, its name; of the floor, the plan's name where the place may
   * have moved; of cards, what a link begins with.
   */
  readonly to: string;
  /** What was marked on the floor. */
  readonly marks?: readonly Mark[];
  /** What was received, not part of the notebook. */
  readonly received?: readonly Document[];
}

export interface CardPages {
  readonly plan: string;
  readonly page: string;
  readonly spelt: string;
  /** The nearest simpler plan, where a head would have to keep too much. */
  readonly simpler: string | null;
}

/** A document made ready to be sent. */
export interface Parcelled {
  readonly documents: readonly string[];
  readonly parcel: string;
  /** One page that needs nothing else. */
  readonly page: string;
}

/** A document that was received, as it is shown beside one's own. */
export interface ReceivedDocument {
  readonly path: string;
  readonly text: string;
  readonly lines: readonly { readonly text: string; readonly shown: string }[];
  /** The notebook's own text of that name; null where it has none. */
  readonly mine: string | null;
  /** Names that it declares, and the notebook's other documents too. */
  readonly clashes: readonly string[];
}

export type Reply =
  | { readonly about: "completion"; readonly value: Completions | null }
  | { readonly about: "help"; readonly value: Help | null }
  | { readonly about: "declaration"; readonly value: Place | null }
  | { readonly about: "name"; readonly value: { readonly kind: string; readonly name: string; readonly places: number } | null }
  | { readonly about: "renaming"; readonly value: Renaming | null }
  | { readonly about: "format"; readonly value: string }
  /** The plan at the place for the floor's clock; null where there is none with a timeline. */
  | { readonly about: "floor"; readonly value: FloorPlan | null }
  /** The cards of the plan at the place, as a page, and as one with its loops spelt out; null where there is none with a timeline. */
  | { readonly about: "cards"; readonly value: CardPages | null }
  /** The text in `to` as a document beside it. */
  | { readonly about: "copy"; readonly value: string }
  /** The text of the template named in `to`, for this notebook. */
  | { readonly about: "template"; readonly value: string }
  /** What the notebook lacks for its first plan; null where it has one. */
  | { readonly about: "first step"; readonly value: FirstStep | null }
  | { readonly about: "send"; readonly value: Parcelled }
  | { readonly about: "received"; readonly value: readonly ReceivedDocument[] }
  /** Pasted text as an ability block, or why it is none. */
  | { readonly about: "table"; readonly value: TableRead }
  /** The ability block at the place as tab-separated text; null where there is none. */
  | { readonly about: "rows"; readonly value: string | null }
  | { readonly about: "explanation"; readonly value: Explanation | null };

export interface DocumentCount {
  readonly path: string;
  readonly errors: number;
  readonly warnings: number;
}

/** Answers come with the key; findings and the picture in the next pause. `findings` and `counts` are null where they are as they were. */
export type FromWorker =
  | { readonly kind: "answers"; readonly path: string; readonly version: number; readonly whole: boolean; readonly said: readonly Said[] }
  | {
      readonly kind: "findings";
      readonly path: string;
      readonly version: number;
      readonly findings: readonly Finding[] | null;
      readonly counts: readonly DocumentCount[] | null;
    }
  | { readonly kind: "reply"; readonly id: number; readonly reply: Reply }
  | { readonly kind: "explanation"; readonly path: string; readonly version: number; readonly explanation: Explanation | null }
  | {
      readonly kind: "picture";
      readonly path: string;
      readonly version: number;
      readonly picture: Picture | null;
      readonly week: WeekPicture | null;
      readonly blockFrom: number;
      readonly event: string;
      readonly plans: readonly string[];
    };

/** To and from the worker that searches. `stop` keeps what there is. */
export type ToSearch =
  /** `wishes`: limits of the coach's own, lines as under a plan. */
  | { readonly kind: "suggest"; readonly documents: readonly Document[]; readonly event: string; readonly wishes: string }
  | { readonly kind: "compare"; readonly documents: readonly Document[]; readonly plans: readonly string[] }
  | { readonly kind: "orders"; readonly documents: readonly Document[]; readonly week: string }
  | { readonly kind: "calendar"; readonly documents: readonly Document[]; readonly week: string; readonly atS: number }
  /** Another plan for the rest, from the turn after those under way at `nowS` of the plan's own time. */
  | {
      readonly kind: "rest";
      readonly documents: readonly Document[];
      readonly plan: string;
      readonly marks: readonly Mark[];
      readonly nowS: number;
    }
  /** A plan with other values in place of a number: `span` in the document at `path`. */
  | {
      readonly kind: "try";
      readonly documents: readonly Document[];
      readonly path: string;
      readonly span: Span;
      readonly now: number;
      readonly values: readonly number[];
      readonly plan: string;
    }
  /** What moves a plan's score most. */
  | { readonly kind: "movers"; readonly documents: readonly Document[]; readonly plan: string }
  /** Whether the week's second tries pay, as planned and with a better plan. */
  | { readonly kind: "again"; readonly documents: readonly Document[]; readonly week: string }
  /** What the logs say of abilities. */
  | { readonly kind: "learn"; readonly documents: readonly Document[] }
  | { readonly kind: "stop" };

export type FromSearch =
  | {
      readonly kind: "trial";
      readonly path: string;
      readonly span: Span;
      readonly score: "time" | "reps";
      readonly now: number;
      readonly best: number;
      readonly points: readonly TrialPoint[];
      readonly done: boolean;
    }
  | {
      readonly kind: "movers";
      readonly plan: string;
      readonly score: "time" | "reps";
      readonly movers: readonly MoverLine[];
      readonly asks: readonly string[];
    }
  | { readonly kind: "again"; readonly lines: readonly string[] }
  | { readonly kind: "learnt"; readonly page: LearntPage }
  | {
      readonly kind: "proposals";
      readonly event: string;
      readonly steps: number;
      readonly done: boolean;
      readonly proposals: readonly Proposal[];
      readonly nothing: string | null;
    }
  /**
   * `nothing`: that nothing better than the coach's own was found. `why`: what would have to be true for the other plan
   * to win; null while it is looked for.
   */
  | { readonly kind: "comparison"; readonly comparison: PlanComparison; readonly why: WhatTurns | null }
  /** `was`: the week's block that these are orders of. */
  | { readonly kind: "orders"; readonly was: string; readonly ideas: WeekIdeas }
  | { readonly kind: "calendar"; readonly week: string; readonly text: string }
  /** `lines`: the turns to come, as they are said; `gain` in s, or reps. */
  | {
      readonly kind: "rest";
      readonly plan: string;
      readonly marks: number;
      readonly floor: FloorPlan;
      readonly gain: number;
      readonly lines: readonly string[];
    }
  | { readonly kind: "failed"; readonly reason: string };
