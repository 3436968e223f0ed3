import { mayHold } from "./never-holds.js";
import { inPlan, type LimitKind, type Run } from "./limit.js";

/** `rule hold share within 10 %`: holding time, by points of percent from an even share among those who may hold. */
export const holdShareWithin: LimitKind = {
  id: "hold share within",
  forms: ["hold share within P"],
  stricter: "less",
  measure: (run, [limit]) => {
    const may = mayHold(run.plan);
    const held = new Map([...heldIn(run)].filter(([name]) => may.includes(name)));
    const all = [...held.values()].reduce((sum, seconds) => sum + seconds, 0);
    if (!limit || all === 0) return [];
    const off = (seconds: number): number => Math.abs(seconds / all - 1 / held.size);
    const [name, seconds] = [...held].reduce((worst, one) => (off(one[1]) > off(worst[1]) ? one : worst));
    return off(seconds) > limit.value + 1e-9
      ? [{ ...inPlan(limit, name, seconds / all, (off(seconds) - limit.value) * 100), due: 1 / held.size }]
      : [];
  },
};

/** Seconds on the hold, by athlete. */
export function heldIn({ plan, segments }: Run): ReadonlyMap<string, number> {
  const held = new Map(plan.team.athletes.map(({ name }) => [name, 0]));
  for (const { athlete, activity, startS, endS } of segments)
    if (activity === "hold") held.set(athlete, (held.get(athlete) ?? 0) + endS - startS);
  return held;
}
