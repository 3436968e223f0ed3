import { loadFor } from "../../3-plan/plan.js";
import type { Breach, LimitInForce, LimitKind, Run } from "./limit.js";
import { type SetDone, setsOf } from "./sets.js";

/** `rule set at most 12 reps`: in one go, so a broken set is judged by its parts and turns without a pause between them as one. */
export const setAtMostReps: LimitKind = {
  id: "set at most reps",
  forms: ["set at most N"],
  stricter: "less",
  measure: (run, limits) => setsOver(run, limits, (limit) => limit.value),
};

/** `rule set at most 40 % unbroken`: of each one's own best. */
export const setAtMostUnbroken: LimitKind = {
  id: "set at most unbroken",
  forms: ["set at most P unbroken"],
  stricter: "less",
  measure: (run, limits) =>
    setsOver(
      run,
      limits,
      ({ value }, { who, work }) => value * run.abilities.unbroken(who, work.movement, loadFor(run.plan.team, who, work.load)).reps,
    ),
};

/** The first set past a limit that ends in each line. */
function setsOver(run: Run, limits: readonly LimitInForce[], most: (limit: LimitInForce, set: SetDone) => number): readonly Breach[] {
  const sets = limits.length > 0 ? setsOf(run) : [];
  return limits.flatMap((limit) => {
    const told = new Set<number>();
    return sets.flatMap((set): readonly Breach[] => {
      const allowed = most(limit, set);
      const { who, reps: value, turn } = set;
      if (value <= allowed + 1e-9 || told.has(turn.id)) return [];
      told.add(turn.id);
      return [{ limit, who, value, over: value - allowed, step: turn.id, atS: set.in.startS, due: allowed, stage: null }];
    });
  });
}
