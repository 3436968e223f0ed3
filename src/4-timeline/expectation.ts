import { type Problem, problem } from "../0-base/problem.js";
import { clock, counted, percent, plain, toldApart } from "../0-base/quantity.js";
import type { ExpectLine } from "../3-plan/ast.js";
import type { Comparison } from "../3-plan/parts.js";
import type { Amount } from "../3-plan/formula.js";
import type { Evaluation } from "./evaluate.js";

export type Judgement =
  | { readonly kind: "judged"; readonly holds: boolean; readonly left: string; readonly right: string; readonly limit: number }
  | { readonly kind: "failed"; readonly problem: Problem };

/** Two values are the same when they differ by less than a thousandth of their unit. */
const sameWithin = 1e-3;

/** What an `expect` line comes to; `limit` is its right side in base units. A plain number may stand against any unit. */
export function judgeExpectation(line: ExpectLine, evaluation: Evaluation): Judgement {
  const left = evaluation.evaluate(line.left);
  if (!left.ok) return { kind: "failed", problem: left.problem };
  const right = evaluation.evaluate(line.right);
  if (!right.ok) return { kind: "failed", problem: right.problem };
  const [a, b] = [left.amount, right.amount];
  if (a.dimension !== b.dimension && a.dimension !== "number" && b.dimension !== "number") {
    return { kind: "failed", problem: problem("does-not-compute", line.span, { reason: "units differ" }) };
  }
  const dimension = a.dimension === "number" ? b.dimension : a.dimension;
  // Where the two look alike and are not, as many decimals are shown as tell them apart.
  const [plainLeft, plainRight] = [showAmount({ value: a.value, dimension }), showAmount({ value: b.value, dimension })];
  const show = (value: number, digits: number): string => exactly(value, dimension, digits);
  const nearly = plainLeft === plainRight || (dimension === "time" && Math.abs(a.value - b.value) < 0.1);
  const [shownLeft, shownRight] = nearly ? toldApart(a.value, b.value, show) : [plainLeft, plainRight];
  const alike = a.value === b.value || (line.comparison === "is" && Math.abs(a.value - b.value) < sameWithin);
  return {
    kind: "judged",
    holds: compares(a.value, line.comparison, b.value),
    left: alike ? plainLeft : shownLeft,
    right: alike ? plainRight : shownRight,
    limit: b.value,
  };
}

/** Whether a comparison of two numbers in base units holds. */
export function compares(a: number, comparison: Comparison, b: number): boolean {
  switch (comparison) {
    case "under":
      return a < b;
    case "over":
      return a > b;
    case "at most":
      return a <= b;
    case "at least":
      return a >= b;
    case "is":
      return Math.abs(a - b) < sameWithin;
  }
}

function exactly(value: number, dimension: Amount["dimension"], digits: number): string {
  switch (dimension) {
    case "time":
      return value < 60 ? `${plain(value, digits)} s` : `${clock(Math.floor(value))}.${plain(value % 1, digits).slice(2) || "0"}`;
    case "share":
      return percent(value, digits);
    case "load":
      return `${plain(value, digits)} kg`;
    case "count":
      return `${plain(value, digits)} reps`;
    case "length":
      return `${plain(value, digits)} m`;
    case "number":
      return plain(value, digits);
  }
}

/** An amount as a coach would write it: `14:21`, `43.1 kg`, `12 reps`, `26 %`. */
export function showAmount({ value, dimension }: Amount): string {
  switch (dimension) {
    case "time":
      return Math.abs(value) < 59.95 ? `${plain(value)} s` : clock(value);
    case "load":
      return `${plain(value, 2)} kg`;
    case "count":
      return counted(value, "rep");
    case "length":
      return `${plain(value)} m`;
    case "share":
      return percent(value);
    case "number":
      return plain(value, 3);
  }
}
