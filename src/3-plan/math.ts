/**
 * The part of mathjs that formulas use: its units and four kinds of node, made from a closed list of functions on plain
 * numbers and units. Its parser, matrices, symbols and settings are not loaded, let alone reachable.
 */
import {
  createConstantNode,
  createFunctionNode,
  createNode,
  createParenthesisNode,
  createSymbolNode,
  createUnitClass,
  isUnit,
  type MathNode,
  type Unit,
} from "mathjs";

/** A kind of value that formulas do not have. */
class Absent {}

const UnitClass = createUnitClass({
  config: { predictable: false },
  addScalar: (a = 0, b = 0) => a + b,
  subtractScalar: (a = 0, b = 0) => a - b,
  multiplyScalar: (a = 0, b = 0) => a * b,
  divideScalar: (a = 0, b = 0) => a / b,
  pow: (a = 0, b = 0) => a ** b,
  abs: (a = 0) => Math.abs(a),
  fix: (a = 0) => Math.trunc(a),
  round: (a = 0) => Math.round(a),
  equal: (a = 0, b = 0) => a === b,
  isNumeric: (value) => typeof value === "number",
  format: String,
  number: Number,
  Complex: Absent,
  BigNumber: Absent,
  Fraction: Absent,
});
UnitClass.createUnitSingle("rep", { aliases: ["reps"] });

export function newUnit(value: number, unit: string): Unit {
  return new UnitClass(value, unit);
}

/** All that a formula can do. A unit is rounded in the unit it is written in. */
export const functions = {
  plus: (a: unknown, b: unknown): unknown => bothAlike(a, b, (x, y) => x + y),
  minus: (a: unknown, b: unknown): unknown => bothAlike(a, b, (x, y) => x - y),
  times: (a: unknown, b: unknown): unknown =>
    isUnit(a) ? a.multiply(asUnit(b)) : isUnit(b) ? b.multiply(asUnit(a)) : Number(a) * Number(b),
  over: (a: unknown, b: unknown): unknown => (isUnit(a) || isUnit(b) ? asUnit(a).divide(asUnit(b)) : Number(a) / Number(b)),
  power: (base: unknown, exponent: unknown): unknown => {
    if (isUnit(base) || isUnit(exponent)) throw new TypeError("only numbers without a unit have powers");
    return Number(base) ** Number(exponent);
  },
  negative: (x: unknown): unknown => eachNumber(x, (value) => -value),
  round: (x: unknown): unknown => eachNumber(x, Math.round),
  floor: (x: unknown): unknown => eachNumber(x, Math.floor),
  ceil: (x: unknown): unknown => eachNumber(x, Math.ceil),
  abs: (x: unknown): unknown => eachNumber(x, Math.abs),
  sqrt: (x: unknown): unknown => functions.power(x, 0.5),
  min: (...values: readonly unknown[]): unknown => values.reduce((a, b) => bothAlike(a, b, Math.min)),
  max: (...values: readonly unknown[]): unknown => values.reduce((a, b) => bothAlike(a, b, Math.max)),
} as const;

const Node = createNode({ mathWithTransform: functions });
const ConstantNode = createConstantNode({ Node, isBounded: Number.isFinite });
const SymbolNode = createSymbolNode({ math: functions, Node });
const ParenthesisNode = createParenthesisNode({ Node });
const FunctionNode = createFunctionNode({ math: functions, Node, SymbolNode });

/** The nodes a formula is built of. */
export const nodes = {
  number: (value: number): MathNode => new ConstantNode(value),
  named: (name: string): MathNode => new SymbolNode(name),
  paren: (content: MathNode): MathNode => new ParenthesisNode(content),
  call: (name: string, inputs: MathNode[]): MathNode => new FunctionNode(new SymbolNode(name), inputs),
} as const;

function asUnit(value: unknown): Unit {
  return isUnit(value) ? value : new UnitClass(Number(value));
}

function eachNumber(value: unknown, change: (x: number) => number): unknown {
  if (!isUnit(value)) return change(Number(value));
  const name = value.formatUnits();
  return newUnit(change(value.toNumber(name)), name);
}

/**
 * Two numbers, or two units of one kind: the second is brought to the unit of the first. A plain number beside reps is
 * a number of reps.
 */
function bothAlike(a: unknown, b: unknown, join: (x: number, y: number) => number): unknown {
  if (isUnit(a) && !isUnit(b) && a.equalBase(newUnit(1, "rep"))) return bothAlike(a, newUnit(Number(b), "rep"), join);
  if (isUnit(b) && !isUnit(a) && b.equalBase(newUnit(1, "rep"))) return bothAlike(newUnit(Number(a), "rep"), b, join);
  if (!isUnit(a) && !isUnit(b)) return join(Number(a), Number(b));
  if (!isUnit(a) || !isUnit(b) || !a.equalBase(b)) throw new TypeError("units do not match");
  const name = a.formatUnits();
  return newUnit(join(a.toNumber(name), b.toNumber(name)), name);
}
