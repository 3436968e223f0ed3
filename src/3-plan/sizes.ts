import { type Problem, problem } from "../0-base/problem.js";
import type { Unit } from "../0-base/quantity.js";
import type { TurnLine } from "./ast.js";
import type { Expression } from "./parts.js";
import type { Computed } from "./formula.js";
import type { Rhythm } from "./plan.js";
import { inBase } from "./values.js";

export const largestSet = 5000;

/**
 * The reps of each athlete of a turn, pass by pass. Percent is of each one's own best, at least 1; in one rhythm the
 * smaller one counts for both. `shared` splits a number as evenly as it goes. Null where the size cannot be known.
 */
export function sizesOf(
  line: TurnLine,
  who: readonly string[],
  { shared, rhythm }: { readonly shared: boolean; readonly rhythm: Rhythm },
  unbroken: (athlete: string) => number,
  evaluate: (expression: Expression) => Computed,
  report: (problem: Problem) => void,
): readonly (readonly number[])[] | null {
  const steps = stepsOf(line, who, unbroken, evaluate, report);
  if (!steps) return null;
  const { broken } = line.clauses;
  const sum = broken?.parts.reduce((total, part) => total + part, 0) ?? 0;
  if (broken && steps.some((ladder) => ladder.some((reps) => reps !== sum))) {
    const size = steps.flat().find((reps) => reps !== sum) ?? 0;
    report(problem("broken-set-sum", broken.span, { sum, size, parts: broken.parts.join("+") }));
  }
  if (broken) return who.map(() => [sum]);
  if (shared)
    return who.map((_, place) => (steps[0] ?? []).map((reps) => Math.floor(reps / who.length) + (place < reps % who.length ? 1 : 0)));
  if (rhythm === "each") return steps;
  const common = (steps[0] ?? []).map((_, pass) => Math.min(...steps.map((ladder) => ladder[pass] ?? 0)));
  return who.map(() => common);
}

/** A size in another unit than its stage counts. */
export function countedOtherwise(size: TurnLine["size"], counted: Unit): readonly Problem[] {
  const unit = size.kind === "number" ? size.value.unit : null;
  const counts: readonly Unit[] = ["rep", "cal", "m"];
  if (unit === null || unit === counted || !counts.includes(unit)) return [];
  return [problem("unit-mismatch", size.span, { given: unit, wanted: `${counted}, as the stage counts` })];
}

/** Reps of a part of somebody's best set: to the nearest, at least 1. */
export function partOf(unbroken: number, fraction: number): number {
  return Math.max(1, Math.round(fraction * unbroken));
}

function stepsOf(
  { size }: TurnLine,
  who: readonly string[],
  unbroken: (athlete: string) => number,
  evaluate: (expression: Expression) => Computed,
  report: (problem: Problem) => void,
): readonly (readonly number[])[] | null {
  const whole = (reps: number | null, least: number): number | null => {
    if (reps === null || (Number.isInteger(reps) && reps >= least && reps <= largestSet)) return reps;
    report(problem("size-not-whole", size.span, { size: reps, least, most: largestSet }));
    return null;
  };
  switch (size.kind) {
    case "number": {
      const reps = whole(inBase(size.value, ["count", "number", "length"], report), 1);
      return reps === null ? null : who.map(() => [reps]);
    }
    case "expression": {
      const computed = evaluate(size.of);
      if (!computed.ok) {
        report(computed.problem);
        return null;
      }
      const { value, dimension } = computed.amount;
      if (dimension !== "number" && dimension !== "count" && dimension !== "length") {
        report(problem("unit-mismatch", size.span, { given: dimension, wanted: "a number of reps" }));
        return null;
      }
      const reps = whole(Math.abs(value - Math.round(value)) < 1e-9 ? Math.round(value) : value, 1);
      return reps === null ? null : who.map(() => [reps]);
    }
    case "percent":
      return who.map((athlete) => [partOf(unbroken(athlete), size.fraction)]);
    case "ladder": {
      if (size.ofBest) return who.map((athlete) => size.steps.map((step) => partOf(unbroken(athlete), step / 100)));
      const steps = size.steps.map((reps) => whole(reps, 0));
      return steps.every((reps) => reps !== null) ? who.map(() => steps) : null;
    }
  }
}
