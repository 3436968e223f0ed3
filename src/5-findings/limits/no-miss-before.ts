import type { LimitKind, Run } from "./limit.js";

/** `rule no miss before 90 % of cap`: of the window, where the event has windows. */
export const noMissBefore: LimitKind = {
  id: "no miss before",
  forms: ["no miss before P of cap"],
  stricter: "more",
  measure: (run, [limit]) => {
    const first = limit ? firstMiss(run) : null;
    const dueS = limit && first ? shareOfTime(run, first.atS, limit.value) : null;
    if (!limit || !first || dueS === null || first.atS >= dueS) return [];
    return [
      { limit, who: first.athlete, value: first.atS, over: dueS - first.atS, step: first.step, atS: first.atS, due: dueS, stage: null },
    ];
  },
};

export function firstMiss({ turns }: Pick<Run, "turns">) {
  const misses = turns.flatMap(({ step, misses: missed }) => missed.map(({ athlete, atS }) => ({ step, athlete, atS })));
  return misses.sort((a, b) => a.atS - b.atS)[0] ?? null;
}

/** When a share of the cap is over, or of the window a moment lies in; null without a cap. */
export function shareOfTime({ plan: { event } }: Pick<Run, "plan">, atS: number, share: number): number | null {
  const window = event.windows.find(({ startS, endS }) => startS <= atS && atS < endS);
  if (window) return window.startS + share * (window.endS - window.startS);
  return event.capS === null ? null : share * event.capS;
}
