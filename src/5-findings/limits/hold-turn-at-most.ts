import { type Stint, stintsOf } from "../stints.js";
import { type Breach, type LimitKind, type Run, slight } from "./limit.js";

/** `rule hold turn at most 45 s`: nobody longer on the hold without a break. */
export const holdTurnAtMost: LimitKind = {
  id: "hold turn at most",
  forms: ["hold turn at most T"],
  stricter: "less",
  measure: (run, [limit]) => {
    if (!limit) return [];
    return stintsOver(run, limit.value).map(({ athlete, startS, endS, steps }): Breach => ({
      limit,
      who: athlete,
      value: endS - startS,
      over: endS - startS - limit.value,
      step: steps[0] ?? 0,
      atS: startS + limit.value,
      due: limit.value,
      stage: null,
    }));
  },
};

export function stintsOver({ segments }: Pick<Run, "segments">, limitS: number): readonly Stint[] {
  return stintsOf(segments).filter(({ startS, endS }) => endS - startS > limitS + slight);
}
