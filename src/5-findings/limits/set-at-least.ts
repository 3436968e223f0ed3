import type { Breach, LimitKind } from "./limit.js";

/** `rule at least 5 reps before a change`: a set that the target or the cap ends may be shorter. */
export const setAtLeast: LimitKind = {
  id: "set at least",
  forms: ["set at least N", "at least N before a change"],
  stricter: "more",
  measure: ({ turns }, limits) =>
    limits.flatMap((limit) => {
      const told = new Set<number>();
      return turns.flatMap(({ step, stage, endS, startS, athletes }): readonly Breach[] => {
        const lastS = Math.max(...turns.filter((run) => run.stage === stage).map((run) => run.endS));
        const short = athletes.find(({ reps }) => reps < limit.value);
        if (!short || told.has(step) || endS >= lastS - 1e-6) return [];
        told.add(step);
        const { name: who, reps: value } = short;
        return [{ limit, who, value, over: limit.value - value, step, atS: startS, due: limit.value, stage: null }];
      });
    }),
};
