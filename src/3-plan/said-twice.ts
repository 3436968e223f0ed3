import type { SyntaxNode } from "@lezer/common";
import { problem } from "../0-base/problem.js";
import type { Span } from "../0-base/span.js";
import type { Reader } from "./reader.js";

/** Parts of a line that are said once, by the names of their nodes, and what they say. */
const saidOnce: Readonly<Record<string, string>> = {
  Each: "how they work",
  InSync: "how they work",
  Together: "how they work",
  Shared: "how they work",
  Load: "the load",
  As: "how the set is broken",
  While: "the hold",
  Whom: "whose it is",
  Within: "the time it may take",
  Then: "the rest after it",
  Unscored: "that it is not scored",
};

/** Reports each part of a line that says again what one before it has said: only one of the two can count. */
export function reportSaidTwice(line: SyntaxNode, reader: Reader): void {
  const said = new Map<string, Span>();
  for (let node = line.firstChild; node; node = node.nextSibling) {
    const what = saidOnce[node.name];
    if (what === undefined) continue;
    // Behind a hold stands the load that is held.
    if (node.name === "While") said.delete("the load");
    const span = reader.span(node);
    const before = said.get(what);
    if (!before) {
      said.set(what, span);
      continue;
    }
    const [first, second] = [textOf(before, reader), textOf(span, reader)];
    const fixes = [
      { title: `keep ${first}`, edits: [{ span: withGap(span, reader), text: "" }] },
      { title: `keep ${second}`, edits: [{ span: withGap(before, reader), text: "" }] },
    ];
    reader.report(problem("said-twice", span, { what, first, second }, first === second ? fixes.slice(0, 1) : fixes));
  }
}

function textOf({ from, to }: Span, reader: Reader): string {
  return reader.text.slice(from, to);
}

/** A part of a line and the space before it. */
function withGap({ from, to }: Span, reader: Reader): Span {
  return { from: reader.text.slice(0, from).trimEnd().length, to };
}
