import type { TurnRun } from "../../4-timeline/timeline.js";
import { type Breach, type LimitKind, type Run, slight } from "./limit.js";

/** `rule rest at least 20 s between sets`: from the end of an athlete's work to the next set's start. */
export const restAtLeast: LimitKind = {
  id: "rest at least",
  forms: ["rest at least T between sets", "rest at least T"],
  stricter: "more",
  measure: (run, [limit]) => {
    const found = new Map<number, Breach>();
    for (const { name } of limit ? run.plan.team.athletes : []) {
      const runs = run.turns.filter(({ athletes }) => athletes.some((one) => one.name === name)).sort((a, b) => a.startS - b.startS);
      runs.forEach((turn, at) => {
        const before = runs[at - 1];
        const restedS = before ? turn.startS - workedUntil(before, name, run) : Number.POSITIVE_INFINITY;
        if (!limit || restedS >= limit.value - slight || found.has(turn.step)) return;
        found.set(turn.step, {
          limit,
          who: name,
          value: restedS,
          over: limit.value - restedS,
          step: turn.step,
          atS: turn.startS,
          due: limit.value,
          stage: null,
        });
      });
    }
    return [...found.values()];
  },
};

/** When an athlete's own work of a turn ends. */
function workedUntil({ startS, endS }: TurnRun, name: string, { segments }: Run): number {
  const own = segments.filter(
    (one) => one.athlete === name && one.activity === "work" && one.startS >= startS - slight && one.startS < endS,
  );
  return Math.max(startS, ...own.map((one) => one.endS));
}
