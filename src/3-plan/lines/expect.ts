import type { Comparison } from "../parts.js";
import { joined, printExpression } from "../print-parts.js";
import { childExpressions, readExpression } from "../read-expression.js";
import type { LineKind } from "./line-kind.js";

export const expectLine: LineKind<"expect"> = {
  kind: "expect",
  node: "Expect",
  head: "expect",
  under: [null],
  read(node, r) {
    const [first, second] = childExpressions(node);
    const words = node.getChild("Comparison");
    const comparison = comparisons.find((one) => words && one === r.raw(words).replace(/\s+/g, " "));
    const [left, right] = [first && readExpression(first, r), second && readExpression(second, r)];
    return left && right && comparison ? { kind: "expect", left, comparison, right } : null;
  },
  print({ left, comparison, right }) {
    return joined("expect", printExpression(left), comparison, printExpression(right));
  },
  names({ left, right }, found) {
    found.formula(left);
    found.formula(right);
  },
  help: {
    expect: "What you count on. It becomes a finding when it does not hold.",
    under: "Less than.",
    over: "More than.",
    is: "The same, to a thousandth.",
  },
  snippets: [{ word: "expect", says: "say what you count on, and see when it fails", text: "expect #{Plan}.time under #{14:30}\n" }],
  samples: ["expect Steady.time under 14:30", "expect Steady.Ines.share at most 30 %"],
};

const comparisons: readonly Comparison[] = ["under", "over", "at most", "at least", "is"];
