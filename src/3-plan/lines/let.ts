import { joined, printExpression } from "../print-parts.js";
import { childExpressions, readExpression } from "../read-expression.js";
import type { LineKind } from "./line-kind.js";

export const letLine: LineKind<"let"> = {
  kind: "let",
  node: "Let",
  head: "let",
  under: [null],
  read(node, r) {
    const [name] = r.words(node);
    const [expression] = childExpressions(node);
    const value = expression && readExpression(expression, r);
    return name && value ? { kind: "let", name, value } : null;
  },
  print({ name, value }, q) {
    return joined("let", q(name), "=", printExpression(value));
  },
  names({ name, value }, found) {
    found.add("value", name, true);
    found.formula(value);
  },
  help: {
    let: "A value of your own, with units; other lines may use it.",
  },
  snippets: [{ word: "let", says: "a value of your own", text: "let #{name} = #{1 min}\n" }],
  samples: ["let margin = Breakwater.cap - Steady.time"],
};
