import type { Document } from "../1-text/document.js";

/** A line that holds what was sought: its words, and where in them it stands. */
export interface Found {
  readonly path: string;
  /** From 1. */
  readonly line: number;
  readonly text: string;
  readonly from: number;
  readonly to: number;
  /** From the start of the document. */
  readonly offset: number;
}

const most = 100;

/** The lines of a notebook that hold some words, whatever their case; at most a hundred, and whether there are more. */
export function found(documents: readonly Document[], sought: string): { readonly places: readonly Found[]; readonly more: boolean } {
  const wanted = sought.trim().toLowerCase();
  const places: Found[] = [];
  for (const { path, text } of documents) {
    let start = 0;
    for (const [at, line] of text.split("\n").entries()) {
      const index = line.toLowerCase().indexOf(wanted);
      if (wanted !== "" && index >= 0) {
        if (places.length === most) return { places, more: true };
        const blank = line.length - line.trimStart().length;
        places.push({
          path,
          line: at + 1,
          text: line.trim(),
          from: index - blank,
          to: index - blank + wanted.length,
          offset: start + index,
        });
      }
      start += line.length + 1;
    }
  }
  return { places, more: false };
}
