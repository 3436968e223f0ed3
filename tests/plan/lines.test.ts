/** Each kind of line by the samples it gives of itself. */
import { describe, expect, it } from "vitest";
import { blocksOf } from "../../src/2-tree/blocks.js";
import { parse } from "../../src/2-tree/parse.js";
import { allKinds } from "../../src/3-plan/lines/kinds.js";
import type { Kind } from "../../src/3-plan/lines/line-kind.js";
import { kindsUnder } from "../../src/3-plan/placement.js";
import { printLine } from "../../src/3-plan/print.js";
import { readBlock } from "../../src/3-plan/read.js";
import { wordHelp } from "../../src/7-view/word-help.js";

function readAlone(text: string) {
  const [block] = blocksOf(text, parse(text).tree);
  return block ? readBlock(block).line : null;
}

describe.each(allKinds.map((kind) => [kind.kind, kind] as const))("a line of the kind “%s”", (_, kind) => {
  it.each(kind.samples.map((sample) => [sample]))("is read from “%s”, and printed the same", (sample) => {
    const line = readAlone(sample);
    expect(line?.kind).toBe(kind.kind);
    expect(line && printLine(line)).toBe(sample);
  });

  it("has a sample, a place to stand, and help for the word that opens it", () => {
    expect(kind.samples.length).toBeGreaterThan(0);
    expect(kind.under.length).toBeGreaterThan(0);
    for (const head of kind.under) expect<readonly Kind[]>(kindsUnder(head)).toContain(kind.kind);
    if (kind.head !== undefined) expect(Object.keys(wordHelp)).toContain(kind.head);
  });
});
