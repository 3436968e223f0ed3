import { isUnit, type MathNode } from "mathjs";
import { type Problem, problem, type ProblemOf } from "../0-base/problem.js";
import type { Dimension } from "../0-base/quantity.js";
import type { Span } from "../0-base/span.js";
import type { Expression, Operator } from "./parts.js";
import { newUnit, nodes } from "./math.js";

/** A number in base units (s, kg, rep, m, 1) and what it measures. */
export interface Amount {
  readonly value: number;
  readonly dimension: Dimension | "number";
}

export type Computed = { readonly ok: true; readonly amount: Amount } | { readonly ok: false; readonly problem: Problem };

/** What a dotted name stands for. */
export type Lookup = (path: readonly string[], span: Span) => Computed;

/** The units a formula may use, as mathjs spells them; `min` and `h` are ours, so that the function min stays. */
const formulaUnits: Readonly<Record<string, string>> = {
  kgs: "kg",
  mins: "minute",
  secs: "s",
  cal: "rep",
  cals: "rep",
  calories: "rep",
  metre: "m",
  metres: "m",
  s: "s",
  sec: "s",
  seconds: "s",
  second: "s",
  min: "minute",
  minute: "minute",
  minutes: "minute",
  h: "hour",
  hour: "hour",
  hours: "hour",
  kg: "kg",
  lb: "lbm",
  lbs: "lbm",
  g: "g",
  rep: "rep",
  reps: "rep",
  m: "m",
  km: "km",
  yd: "yd",
  ft: "ft",
};
const baseUnits = { time: "s", load: "kg", count: "rep", length: "m" } as const;
const operatorNames = { "+": "plus", "-": "minus", "*": "times", "/": "over", "^": "power" } as const satisfies Record<Operator, string>;

/** The functions a formula may call, with how many inputs each takes. */
const functions: Readonly<Record<string, readonly [least: number, most: number]>> = {
  round: [1, 1],
  floor: [1, 1],
  ceil: [1, 1],
  min: [1, 20],
  max: [1, 20],
  abs: [1, 1],
  sqrt: [1, 1],
};

/** Bounds on a formula: a coach's formula is far inside them, and none inside them is slow. */
export const formulaBounds = { length: 300, nodes: 100, depth: 20 } as const;

class Refused extends Error {
  constructor(readonly problem: Problem) {
    super(problem.rule);
  }
}

/**
 * Computes an expression with units: our tree becomes mathjs nodes from an allow-list, and mathjs evaluates them.
 * Never throws; a problem's span is the part that is wrong.
 */
export function compute(expression: Expression, lookup: Lookup): Computed {
  const scope = new Map<string, unknown>();
  try {
    measure(expression);
    // What stands by itself keeps what it measures.
    if (expression.kind === "reference") return lookup(expression.path, expression.span);
    const node = build(expression, lookup, scope);
    const amount = amountOf(node.compile().evaluate(scope), expression.span);
    return { ok: true, amount: isShare(expression, lookup) ? { value: amount.value, dimension: "share" } : amount };
  } catch (error) {
    if (error instanceof Refused) return { ok: false, problem: error.problem };
    const reason = error instanceof Error ? error.message : "";
    return { ok: false, problem: mismatch(expression, lookup, reason) };
  }
}

function refuse(span: Span, values: ProblemOf<"does-not-compute">["values"]): never {
  throw new Refused(problem("does-not-compute", span, values));
}

function measure(root: Expression): void {
  const { from, to } = root.span;
  if (to - from > formulaBounds.length) refuse(root.span, { reason: "too long", most: formulaBounds.length });
  let nodes = 0;
  const walk = (expression: Expression, depth: number): void => {
    nodes += 1;
    if (nodes > formulaBounds.nodes || depth > formulaBounds.depth) refuse(root.span, { reason: "too deep" });
    for (const part of partsOf(expression)) walk(part, depth + 1);
  };
  walk(root, 0);
}

/** Whether an expression comes to a share of something: one itself, the sum or difference of two. */
function isShare(expression: Expression, lookup: Lookup): boolean {
  const share = (part: Expression): boolean => isShare(part, lookup);
  switch (expression.kind) {
    case "value":
      return expression.unit === "%";
    case "reference": {
      const found = lookup(expression.path, expression.span);
      return found.ok && found.amount.dimension === "share";
    }
    case "negative":
    case "paren":
      return share(expression.of);
    case "binary": {
      const { operator, left, right } = expression;
      return (operator === "+" || operator === "-") && share(left) && share(right);
    }
    default:
      return false;
  }
}

/** The expressions directly inside an expression. */
export function partsOf(expression: Expression): readonly Expression[] {
  switch (expression.kind) {
    case "binary":
      return [expression.left, expression.right];
    case "negative":
    case "convert":
    case "paren":
      return [expression.of];
    case "call":
      return expression.inputs;
    case "value":
    case "measured":
    case "reference":
      return [];
  }
}

function build(expression: Expression, lookup: Lookup, scope: Map<string, unknown>): MathNode {
  const keep = (value: unknown): MathNode => {
    const name = `value${scope.size}`;
    scope.set(name, value);
    return nodes.named(name);
  };
  const inner = (part: Expression): MathNode => build(part, lookup, scope);
  switch (expression.kind) {
    case "value": {
      if (expression.unit === "%") return nodes.number(expression.amount / 100);
      return expression.unit === null
        ? nodes.number(expression.amount)
        : keep(newUnit(expression.amount, mathUnit(expression.unit, expression.span)));
    }
    case "measured":
      return keep(newUnit(expression.amount, mathUnit(expression.unit.text, expression.unit.span)));
    case "reference": {
      const found = lookup(expression.path, expression.span);
      if (!found.ok) throw new Refused(found.problem);
      const { value, dimension } = found.amount;
      return dimension === "number" || dimension === "share" ? nodes.number(value) : keep(newUnit(value, baseUnits[dimension]));
    }
    case "paren":
      return nodes.paren(inner(expression.of));
    case "negative":
      return nodes.call("negative", [inner(expression.of)]);
    case "binary": {
      const { operator, left, right } = expression;
      return nodes.call(operatorNames[operator], [inner(left), inner(right)]);
    }
    case "convert": {
      const goal = mathUnit(expression.unit.text, expression.unit.span);
      scope.set(`to ${goal}`, (value: unknown) => (isUnit(value) ? value.to(goal) : value));
      return nodes.call(`to ${goal}`, [inner(expression.of)]);
    }
    case "call": {
      const { name, inputs } = expression;
      const count = Object.hasOwn(functions, name.text) ? functions[name.text] : undefined;
      if (!count) {
        refuse(name.span, { reason: "unknown function", name: name.text, known: Object.keys(functions) });
      }
      if (inputs.length < count[0] || inputs.length > count[1]) {
        refuse(expression.span, { reason: "inputs", name: name.text, given: inputs.length, wanted: count[0] });
      }
      return nodes.call(name.text, inputs.map(inner));
    }
  }
}

function mathUnit(name: string, span: Span): string {
  const known = Object.hasOwn(formulaUnits, name) ? formulaUnits[name] : undefined;
  if (known === undefined) refuse(span, { reason: "unknown unit", name });
  return known;
}

function amountOf(result: unknown, span: Span): Amount {
  if (typeof result === "number" && Number.isFinite(result)) return { value: result, dimension: "number" };
  if (isUnit(result)) {
    for (const [dimension, unit] of [
      ["time", "s"],
      ["load", "kg"],
      ["count", "rep"],
      ["length", "m"],
    ] as const) {
      if (result.equalBase(newUnit(1, unit))) {
        const value = result.toNumber(unit);
        if (Number.isFinite(value)) return { value, dimension };
      }
    }
    refuse(span, { reason: "odd unit", unit: result.formatUnits() });
  }
  return refuse(span, { reason: "no number" });
}

/** The innermost operation whose two sides do not go together; the whole expression where none is found. */
function mismatch(expression: Expression, lookup: Lookup, reason: string): Problem {
  for (const part of partsOf(expression)) {
    const inner = compute(part, lookup);
    if (!inner.ok) return inner.problem;
  }
  return problem("does-not-compute", expression.span, { reason: /unit/i.test(reason) ? "units differ" : "no number" });
}
