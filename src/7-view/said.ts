import { lineStarts } from "../1-text/document.js";
import { type About, type Answer, assumes } from "./answer.js";
import type { Row } from "./columns.js";

/** Lines on a screen, and more: what stands there is said first. */
export const screenLines = 60;

/** An answer in its place: at the line that begins at `offset` in its document. */
export interface PlacedAnswer {
  readonly offset: number;
  readonly shown: string;
  readonly row?: Row;
  /** True where a number in it is assumed. */
  readonly assumed: boolean;
  readonly about: About;
}

/** All that is said of a stretch of text, in place of what was said before. */
export interface Said {
  readonly from: number;
  readonly to: number;
  readonly answers: readonly PlacedAnswer[];
}

/** What is said of a block that begins at `from` in its document. */
export function saidOf({ from, text }: { readonly from: number; readonly text: string }, answers: readonly Answer[]): Said {
  const starts = lineStarts(text);
  return {
    from,
    to: from + text.length,
    answers: answers.map((answer) => ({
      offset: from + (starts[answer.line] ?? 0),
      shown: answer.shown,
      ...(answer.row && { row: answer.row }),
      assumed: assumes(answer),
      about: answer.about,
    })),
  };
}
