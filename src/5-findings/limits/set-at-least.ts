import { type Breach, type LimitKind, slight, stageEnds } from "./limit.js";

/** `rule at least 5 reps before a change`: a set that the target or the cap ends may be shorter. */
export const setAtLeast: LimitKind = {
  id: "set at least",
  forms: ["set at least N", "at least N before a change"],
  stricter: "more",
  measure: ({ turns }, limits) => {
    const lastS = stageEnds(limits.length > 0 ? turns : []);
    return limits.flatMap((limit) => {
      const told = new Set<number>();
      return turns.flatMap(({ step, stage, endS, startS, athletes }): readonly Breach[] => {
        const short = athletes.find(({ reps }) => reps < limit.value);
        if (!short || told.has(step) || endS >= (lastS.get(stage) ?? 0) - slight) return [];
        told.add(step);
        const { name: who, reps: value } = short;
        return [{ limit, who, value, over: limit.value - value, step, atS: startS, due: limit.value, stage: null }];
      });
    });
  },
};
