import { shortestBreakS } from "../stints.js";
import { type Breach, type LimitKind, slight } from "./limit.js";
import { goesOf } from "./sets.js";

/** `rule turn at most 30 s`: from its first second to its last, turns of the same athletes without a break between them as one. */
export const turnAtMost: LimitKind = {
  id: "turn at most",
  forms: ["turn at most T"],
  stricter: "less",
  measure: ({ turns }, [limit]) => {
    const longest = new Map<number, Breach>();
    for (const { who, startS, in: last } of limit ? goesOf(turns, shortestBreakS - slight) : []) {
      const { step, endS } = last;
      const value = endS - startS;
      if (!limit || value <= Math.max(limit.value + slight, longest.get(step)?.value ?? 0)) continue;
      longest.set(step, { limit, who, value, over: value - limit.value, step, atS: startS, due: limit.value, stage: null });
    }
    return [...longest.values()];
  },
};
