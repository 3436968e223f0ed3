import { loadFor, type Turn, turnsOf } from "../../3-plan/plan.js";
import type { Breach, LimitInForce, LimitKind, Run } from "./limit.js";

/** `rule set at most 12 reps`: a broken set is judged by its parts, a round's movements are the event's. */
export const setAtMostReps: LimitKind = {
  id: "set at most reps",
  forms: ["set at most N"],
  stricter: "less",
  measure: (run, limits) => limits.flatMap((limit) => setsOver(run, limit, () => limit.value)),
};

/** `rule set at most 40 % unbroken`: of each one's own best. */
export const setAtMostUnbroken: LimitKind = {
  id: "set at most unbroken",
  forms: ["set at most P unbroken"],
  stricter: "less",
  measure: (run, limits) =>
    limits.flatMap((limit) =>
      setsOver(run, limit, (name, turn) => {
        const [work] = turn.works;
        return work
          ? limit.value * run.abilities.unbroken(name, work.movement, loadFor(run.plan.team, name, work.load)).reps
          : Number.POSITIVE_INFINITY;
      }),
    ),
};

/** The first set past the limit of each turn. */
function setsOver({ plan, turns }: Run, limit: LimitInForce, most: (name: string, turn: Turn) => number): readonly Breach[] {
  return turnsOf(plan.steps)
    .filter(({ rounds }) => rounds === null)
    .flatMap((turn): readonly Breach[] => {
      for (const { step, athletes, startS } of turns) {
        if (step !== turn.id) continue;
        for (const { name, reps } of athletes) {
          const broken = turn.works[0]?.broken;
          const size = broken ? Math.min(reps, Math.max(...broken.parts)) : reps;
          const allowed = most(name, turn);
          if (size > allowed + 1e-9)
            return [{ limit, who: name, value: size, over: size - allowed, step, atS: startS, due: allowed, stage: null }];
        }
      }
      return [];
    });
}
