import { type Breach, type LimitKind, slight, stageEnds } from "./limit.js";

/** `rule change every 10 reps`, or `pairs alternate every 10 reps`: a turn that the target or the cap ends may be shorter. */
export const changeEvery: LimitKind = {
  id: "change every",
  forms: ["change every N"],
  stricter: "less",
  measure: ({ turns }, [limit]) => {
    const lastS = stageEnds(limit ? turns : []);
    const told = new Set<number>();
    return turns.flatMap(({ step, stage, startS, endS, athletes }): readonly Breach[] => {
      const other = limit && (athletes.find(({ reps }) => reps > limit.value) ?? athletes.find(({ reps }) => reps < limit.value));
      if (!other || told.has(step) || (other.reps < limit.value && endS >= (lastS.get(stage) ?? 0) - slight)) return [];
      told.add(step);
      const { name: who, reps: value } = other;
      return [{ limit, who, value, over: Math.abs(limit.value - value), step, atS: startS, due: limit.value, stage: null }];
    });
  },
};
