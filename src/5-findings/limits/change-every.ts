import { type Breach, type LimitKind, slight, stageEnds } from "./limit.js";
import { goesOf } from "./sets.js";

/** `rule change every 10 reps`, or `pairs alternate every 10 reps`: what the target or the cap ends may be shorter. */
export const changeEvery: LimitKind = {
  id: "change every",
  forms: ["change every N"],
  stricter: "less",
  measure: ({ turns }, [limit]) => {
    if (!limit) return [];
    const lastS = stageEnds(turns);
    const told = new Set<number>();
    return goesOf(turns).flatMap(({ who, reps: value, step, stage, atS, endS }): readonly Breach[] => {
      const cut = value < limit.value && endS >= (lastS.get(stage) ?? 0) - slight;
      if (value === limit.value || cut || told.has(step)) return [];
      told.add(step);
      return [{ limit, who, value, over: Math.abs(limit.value - value), step, atS, due: limit.value, stage: null }];
    });
  },
};
