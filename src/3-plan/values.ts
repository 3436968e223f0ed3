import { type Problem, problem } from "../0-base/problem.js";
import { type Dimension, toBase, units } from "../0-base/quantity.js";
import type { Value } from "./parts.js";

/** How each kind of amount is written, for messages. */
export const dimensionWords: Readonly<Record<Dimension | "number", string>> = {
  time: "a time such as 40 s or 2:30",
  load: "a load such as 20 kg or 45 lb",
  count: "a number of reps",
  length: "a distance such as 400 m",
  share: "a share such as 30 %",
  number: "a plain number",
};

/** Tells what a value measures. */
export function dimensionOf(value: Value): Dimension | "number" {
  return value.unit === null ? "number" : units[value.unit].dimension;
}

/** The value in base units if it measures one of the wanted things; otherwise null, and a problem is reported. */
export function inBase(value: Value, wanted: readonly (Dimension | "number")[], report: (problem: Problem) => void): number | null {
  if (wanted.includes(dimensionOf(value))) return toBase(value);
  const [first] = wanted;
  report(problem("unit-mismatch", value.span, { given: value.unit ?? "", wanted: first ? dimensionWords[first] : "" }));
  return null;
}
