import { loadFor, turnsOf, type Work } from "../../3-plan/plan.js";
import type { Breach, LimitKind, Run } from "./limit.js";

/** `rule tempo gap at most 0.5 s`: fresh cycle times of those who work in sync. */
export const tempoGapAtMost: LimitKind = {
  id: "tempo gap at most",
  forms: ["tempo gap at most T"],
  stricter: "less",
  measure: (run, [limit]) => {
    const found = new Map<string, Breach>();
    for (const { id, who, works } of limit ? turnsOf(run.plan.steps) : []) {
      for (const work of works) {
        const key = `${who.join(" ")} ${work.movement}`;
        const gapS = work.rhythm === "in sync" ? tempoGap(who, work, run) : 0;
        if (!limit || gapS <= limit.value + 1e-9 || found.has(key)) continue;
        found.set(key, {
          limit,
          who: who.join(" + "),
          value: gapS,
          over: gapS - limit.value,
          step: id,
          atS: 0,
          due: limit.value,
          stage: null,
        });
      }
    }
    return [...found.values()];
  },
};

/** Seconds a rep between the quickest and the slowest. */
export function tempoGap(
  who: readonly string[],
  { movement, load }: Pick<Work, "movement" | "load">,
  { plan, abilities }: Pick<Run, "plan" | "abilities">,
): number {
  const cycles = who.map((name) => abilities.movement(name, movement, loadFor(plan.team, name, load)).reserve.cycleS);
  return Math.max(...cycles) - Math.min(...cycles);
}
