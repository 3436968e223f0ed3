import { type Breach, type LimitKind, slight } from "./limit.js";

/** `rule turn at most 30 s`: from its first second to its last. */
export const turnAtMost: LimitKind = {
  id: "turn at most",
  forms: ["turn at most T"],
  stricter: "less",
  measure: ({ turns }, [limit]) => {
    const longest = new Map<number, Breach>();
    for (const { step, startS, endS, athletes } of limit ? turns : []) {
      const seconds = endS - startS;
      if (!limit || seconds <= Math.max(limit.value + slight, longest.get(step)?.value ?? 0)) continue;
      longest.set(step, {
        limit,
        who: athletes[0]?.name ?? "",
        value: seconds,
        over: seconds - limit.value,
        step,
        atS: startS,
        due: limit.value,
        stage: null,
      });
    }
    return [...longest.values()];
  },
};
