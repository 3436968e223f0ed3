import { type Document, readable } from "../1-text/document.js";
import { difference } from "../1-text/edits.js";
import { blocksOf } from "../2-tree/blocks.js";
import { parse, type Parsed, reparse } from "../2-tree/parse.js";
import { type ReadBlock, readBlock } from "./read.js";

/** A block as read, and where it stands in its document. */
export interface PlacedBlock {
  readonly from: number;
  /** Line of the document on which the block begins, from 0. */
  readonly firstLine: number;
  readonly text: string;
  readonly read: ReadBlock;
}

export interface OpenDocument {
  readonly path: string;
  readonly parsed: Parsed;
  readonly blocks: readonly PlacedBlock[];
}

/** text → tree → AST of one document; a block whose text was there before is not read again. */
export function openDocument({ path, text: typed }: Document, before: OpenDocument | null): OpenDocument {
  const text = readable(typed);
  const edit = before && difference(before.parsed.text, text);
  if (before && !edit) return before;
  const parsed = before && edit ? reparse(before.parsed, edit, text) : parse(text);
  const known = new Map((before?.blocks ?? []).map((block) => [block.text, block]));
  let line = 0;
  let at = 0;
  const blocks = blocksOf(text, parsed.tree).map((block): PlacedBlock => {
    for (let next = text.indexOf("\n", at); next >= 0 && next < block.from; next = text.indexOf("\n", at)) {
      line += 1;
      at = next + 1;
    }
    const kept = known.get(block.text);
    return { from: block.from, firstLine: line, text: block.text, read: kept ? kept.read : readBlock(block) };
  });
  return { path, parsed, blocks };
}
