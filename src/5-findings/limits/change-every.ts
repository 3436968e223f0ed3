import { type Breach, type LimitKind, mayBeShort } from "./limit.js";
import { goesOf } from "./sets.js";

/** `rule change every 10 reps`, or `pairs alternate every 10 reps`: what the target, the cap or its window ends may be shorter. */
export const changeEvery: LimitKind = {
  id: "change every",
  forms: ["change every N"],
  stricter: "less",
  measure: (run, [limit]) => {
    if (!limit) return [];
    const short = mayBeShort(run);
    const told = new Set<number>();
    return goesOf(run.turns).flatMap(({ who, reps: value, in: turn }): readonly Breach[] => {
      const { step, startS: atS } = turn;
      if (value === limit.value || told.has(step) || (value < limit.value && short(turn))) return [];
      told.add(step);
      return [{ limit, who, value, over: Math.abs(limit.value - value), step, atS, due: limit.value, stage: null }];
    });
  },
};
