import type { PlanSpec } from "../../3-plan/plan.js";
import { type Breach, inForce, type LimitKind, sourcesOf } from "./limit.js";

/** `rule Ines never holds`: no second on a hold, in any stage. */
export const neverHolds: LimitKind = {
  id: "never holds",
  forms: ["NAME never holds"],
  stricter: "less",
  measure: ({ segments }, limits) =>
    limits.flatMap((limit) => {
      const stints = segments.filter(({ athlete, activity }) => activity === "hold" && athlete === limit.who);
      const [first] = stints;
      if (!first) return [];
      const seconds = stints.reduce((sum, { startS, endS }) => sum + endS - startS, 0);
      const { athlete, startS, step } = first;
      return [{ limit, who: athlete, value: seconds, over: seconds, step: step ?? 0, atS: startS, due: 0, stage: null } satisfies Breach];
    }),
};

/** Those of a team whom no rule keeps off the hold. */
export function mayHold(plan: Pick<PlanSpec, "event" | "team" | "rules">): readonly string[] {
  const kept = new Set(inForce(sourcesOf(plan), neverHolds).map(({ who }) => who));
  return plan.team.athletes.map(({ name }) => name).filter((name) => !kept.has(name));
}
