/** One document of a notebook: where it is and what it says. */
export interface Document {
  readonly path: string;
  readonly text: string;
}

/** A document as its home has it. `version` changes with the text and says nothing else. */
export interface StoredDocument extends Document {
  readonly version: string;
}

/** What a document is called: its path without the ending. */
export function nameOf(path: string): string {
  return path.replace(/\.rota$/, "");
}

/** The document that a notebook opens with: the one asked for, else the plan of the demo, else the first by name. */
export function openedFirst(paths: readonly string[], asked: string): string {
  const sorted = [...paths].sort();
  return [asked, "breakwater.rota"].find((path) => sorted.includes(path)) ?? sorted[0] ?? "";
}

/** The text as it is read: a carriage return alone ends a line as any other does. Offsets stay as they are. */
export function readable(text: string): string {
  return text.includes("\r") ? text.replace(/\r(?!\n)/g, "\n") : text;
}

/** Control characters that would act on a terminal, and marks that turn the direction of writing: shown as a box instead. */
export function harmless(text: string): string {
  return text.replace(/[\u0000-\u0008\u000b\u000c\u000e-\u001f\u007f-\u009f\u200e\u200f\u202a-\u202e\u2066-\u2069]/g, "\ufffd");
}

/** Offsets at which lines begin; the first is 0, or 1 behind a byte order mark, which is no column. */
export function lineStarts(text: string): readonly number[] {
  const starts = [text.startsWith("\ufeff") ? 1 : 0];
  for (let at = text.indexOf("\n"); at >= 0; at = text.indexOf("\n", at + 1)) starts.push(at + 1);
  return starts;
}

/** The lines of a text, without what ends them. */
export function linesOf(text: string): readonly string[] {
  const starts = lineStarts(text);
  return starts.map((from, at) => text.slice(from, (starts[at + 1] ?? text.length + 1) - 1));
}

/** Index (from 0) of the line that holds an offset. */
export function lineAt(starts: readonly number[], offset: number): number {
  let low = 0;
  let high = starts.length - 1;
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if ((starts[middle] ?? 0) <= offset) low = middle;
    else high = middle - 1;
  }
  return low;
}

/** Line and column of an offset, both from 1; columns in UTF-16 units. */
export function position(starts: readonly number[], offset: number): { readonly line: number; readonly column: number } {
  const line = lineAt(starts, offset);
  return { line: line + 1, column: Math.max(1, offset - (starts[line] ?? 0) + 1) };
}
