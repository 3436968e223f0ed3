import { type Turn, turnsOf } from "../../3-plan/plan.js";
import { type Breach, type LimitKind, slight } from "./limit.js";
import { turnsBy, workedUntil } from "./sets.js";

/** `rule rest at least 20 s between sets`: from the end of an athlete's work to the next set's start, inside a broken set too. */
export const restAtLeast: LimitKind = {
  id: "rest at least",
  forms: ["rest at least T between sets", "rest at least T"],
  stricter: "more",
  measure: (run, [limit]) => {
    if (!limit) return [];
    const turnOf = new Map(turnsOf(run.plan.steps).map((turn) => [turn.id, turn]));
    const found = new Map<number, Breach>();
    for (const { name: who } of run.plan.team.athletes) {
      let untilS = Number.NEGATIVE_INFINITY;
      for (const turn of turnsBy(who, run)) {
        const reps = turn.athletes.find(({ name }) => name === who)?.reps ?? 0;
        const value = Math.min(turn.startS - untilS, restInside(turnOf.get(turn.step), reps));
        untilS = workedUntil(turn, who, run);
        if (value >= limit.value - slight || found.has(turn.step)) continue;
        const { step, startS: atS } = turn;
        found.set(step, { limit, who, value, over: limit.value - value, step, atS, due: limit.value, stage: null });
      }
    }
    return [...found.values()];
  },
};

/** The rest between the parts of a broken set, in s; infinite where the first of them was the only one begun. */
export function restInside(turn: Turn | undefined, reps: number): number {
  const rests = (turn?.works ?? []).flatMap(({ broken }) => (broken && reps > (broken.parts[0] ?? 0) ? [broken.restS] : []));
  return Math.min(Number.POSITIVE_INFINITY, ...rests);
}
