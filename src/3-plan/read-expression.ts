import type { SyntaxNode } from "@lezer/common";
import type { Expression, Operator } from "./parts.js";
import type { Reader } from "./reader.js";

const expressionNodes = new Set(["Binary", "Convert", "Negative", "Number", "Measured", "Time", "Reference", "Paren", "Call"]);
const operators: readonly Operator[] = ["+", "-", "*", "/", "^"];

/** The typed expression of an expression node. Null where a part is missing: the line is broken there. */
export function readExpression(node: SyntaxNode, reader: Reader): Expression | null {
  const span = reader.span(node);
  const inner = childExpressions(node);
  const [first, second] = inner;
  switch (node.name) {
    case "Number":
    case "Time":
      return reader.value(node);
    case "Measured": {
      const number = node.getChild("Number");
      const unit = node.getChild("Unit");
      if (!number) return null;
      const amount = reader.number(number);
      return unit ? { kind: "measured", amount, unit: reader.word(unit), span } : { kind: "value", amount, unit: "%", clock: false, span };
    }
    case "Reference":
      return {
        kind: "reference",
        path: reader
          .raw(node)
          .split(".")
          .map((part) => part.trim()),
        span,
      };
    case "Paren": {
      const of = first && readExpression(first, reader);
      return of ? { kind: "paren", of, span } : null;
    }
    case "Negative": {
      const of = first && readExpression(first, reader);
      return of ? { kind: "negative", of, span } : null;
    }
    case "Convert": {
      const of = first && readExpression(first, reader);
      const unit = node.getChild("Unit");
      return of && unit ? { kind: "convert", of, unit: reader.word(unit), span } : null;
    }
    case "Binary": {
      const sign = node.getChild("Operator");
      const operator = sign && operators.find((known) => known === reader.raw(sign));
      const left = first && readExpression(first, reader);
      const right = second && readExpression(second, reader);
      return operator && left && right ? { kind: "binary", operator, left, right, span } : null;
    }
    case "Call": {
      const name = node.getChild("Callee");
      const inputs = inner.map((input) => readExpression(input, reader));
      if (!name || inputs.some((input) => input === null)) return null;
      return { kind: "call", name: reader.word(name), inputs: inputs.filter((input) => input !== null), span };
    }
    default:
      return null;
  }
}

/** The children that are expressions, in order. */
export function childExpressions(node: SyntaxNode): readonly SyntaxNode[] {
  const found: SyntaxNode[] = [];
  for (let child = node.firstChild; child; child = child.nextSibling) if (expressionNodes.has(child.name)) found.push(child);
  return found;
}
