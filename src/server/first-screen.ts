import type { Document } from "../1-text/document.js";
import { compile, type Compiled } from "../compile.js";
import { type Said, saidOf, screenLines } from "../7-view/said.js";

/** Answers a document's first screen, so that a page can show it with the text, before its own worker is awake. */
export class FirstScreen {
  private compiled: Compiled | null = null;

  of(path: string, documents: readonly Document[]): readonly Said[] {
    this.compiled = compile(documents, this.compiled);
    const blocks = this.compiled.documents.get(path)?.blocks ?? [];
    return blocks.filter(({ block }) => block.firstLine <= screenLines).map(({ block, answers }) => saidOf(block, answers));
  }
}
