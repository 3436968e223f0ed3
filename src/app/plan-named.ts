import type { PlanSpec } from "../3-plan/plan.js";
import type { PlanResult } from "../4-timeline/evaluate.js";
import type { Timeline } from "../4-timeline/timeline.js";
import type { Compiled } from "../compile.js";

export interface TimedPlan {
  readonly plan: PlanSpec;
  readonly timeline: Timeline;
}

/** A plan of the notebook that has a timeline, by its name; null where there is none. */
export function planNamed(documents: Compiled["documents"], name: string): TimedPlan | null {
  // A plan is worked out when it is asked for: of the others nothing is.
  const named = [...documents.values()].flatMap(({ blocks }) => blocks).filter(({ block: { read: { line } } }) => line.kind === "plan" && line.name.text === name);
  return timed(named.find(({ plan }) => plan?.timeline)?.plan);
}

/** A plan with its timeline, where it has one. */
export function timed(result: PlanResult | null | undefined): TimedPlan | null {
  return result?.resolved.plan && result.timeline ? { plan: result.resolved.plan, timeline: result.timeline } : null;
}
