import type { SyntaxNode } from "@lezer/common";
import type { Word } from "../parts.js";
import { joined, named, printClauses, printValue } from "../print-parts.js";
import { readClauses, readCount, valueIn } from "../read-parts.js";
import type { Reader } from "../reader.js";
import type { LineKind } from "./line-kind.js";

export const stageLine: LineKind<"stage"> = {
  kind: "stage",
  node: "Stage",
  head: "stage",
  under: ["event", "plan", "stage", "window", "lane"],
  read(node, r) {
    const count = node.getChild("Count");
    const names = node.getChildren("Name");
    const before = count ? names.find((name) => name.to <= count.from) : names[0];
    const after = count ? names.find((name) => name.from >= count.to) : undefined;
    const quoted = !count && before?.getChild("String");
    const called = quoted || before;
    const movement = after ? r.word(after) : quoted && before ? wordsBehind(quoted, before, r) : null;
    const whom = node.getChild("Whom");
    const within = node.getChild("Within");
    const then = node.getChild("Then");
    return {
      kind: "stage",
      name: called ? r.word(called) : null,
      count: readCount(node, r),
      movement,
      clauses: readClauses(node, r),
      whom: whom && r.childWord(whom, "Name"),
      within: within && valueIn(within, r),
      rest: then && valueIn(then, r),
      scored: node.getChild("Unscored") === null,
    };
  },
  print({ name, count, movement, clauses, whom, within, rest, scored }, q) {
    const alone = name && movement && !count;
    return joined(
      "stage",
      alone ? `"${name.text}"` : named(name, q),
      count && printValue(count),
      named(movement, q),
      whom && `for ${whom.text}`,
      printClauses(clauses, q),
      within && `within ${printValue(within)}`,
      scored ? null : "unscored",
      rest && `then rest ${printValue(rest)}`,
    );
  },
  names({ name, movement, clauses }, found) {
    found.add("stage", name ?? movement, found.plan === null, found.event);
    // An event's stage without a count is called after its movement.
    if (found.plan === null) found.add("movement", movement ?? name);
    found.clauses(clauses);
  },
  help: {
    stage: "A part of the event with its own work: how many, of what, at which load, and what is held meanwhile.",
  },
  samples: [
    "stage squats 100 squat @ 40/30 kg while 1 hold stone",
    "stage wall throw",
    'stage "the long one" wall throw',
    "stage 400 m run",
    "stage 40 wall throw for women @ 9/6 kg",
    "stage buy-in 40 squat within 5 min unscored then rest 2 min",
  ],
};

/** `stage "the long one" wall throw`: the words behind the name in quotes are the movement. */
function wordsBehind(quoted: SyntaxNode, name: SyntaxNode, r: Reader): Word | null {
  if (name.to <= quoted.to) return null;
  const from = quoted.to - r.base + r.text.slice(quoted.to - r.base).search(/\S/);
  const span = { from, to: name.to - r.base };
  return { text: r.text.slice(span.from, span.to).replace(/\s+/g, " "), span };
}
