import type { TurnRun } from "../../4-timeline/timeline.js";
import { type Breach, type LimitInForce, type LimitKind, slight, stageEnds } from "./limit.js";
import { type Go, goesOf, setsOf } from "./sets.js";

/** `rule set at least 5`: in one go; a set that the target or the cap ends may be shorter. */
export const setAtLeast: LimitKind = {
  id: "set at least",
  forms: ["set at least N"],
  stricter: "more",
  measure: (run, limits) => {
    const sets = limits.length > 0 ? setsOf(run) : [];
    return shortIn(
      limits,
      run.turns,
      sets.map((set) => ({ ...set, step: set.turn.id })),
    );
  },
};

/** `rule at least 5 reps before a change`: until somebody else works, whatever pauses lie between. */
export const beforeChange: LimitKind = {
  id: "before a change",
  forms: ["at least N before a change"],
  stricter: "more",
  measure: ({ turns }, limits) => shortIn(limits, turns, limits.length > 0 ? goesOf(turns) : []),
};

/** The first too short of each line. */
function shortIn(limits: readonly LimitInForce[], turns: readonly TurnRun[], goes: readonly Omit<Go, "startS">[]): readonly Breach[] {
  const lastS = stageEnds(turns);
  return limits.flatMap((limit) => {
    const told = new Set<number>();
    return goes.flatMap(({ who, reps: value, step, stage, atS, endS }): readonly Breach[] => {
      if (value >= limit.value || told.has(step) || endS >= (lastS.get(stage) ?? 0) - slight) return [];
      told.add(step);
      return [{ limit, who, value, over: limit.value - value, step, atS, due: limit.value, stage: null }];
    });
  });
}
