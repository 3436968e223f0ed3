import type { PlanSpec } from "../3-plan/plan.js";
import type { PlanResult } from "../4-timeline/kept.js";
import type { Timeline } from "../4-timeline/timeline.js";
import type { Compiled } from "../compile.js";

export interface TimedPlan {
  readonly plan: PlanSpec;
  readonly timeline: Timeline;
}

/** A plan of the notebook that has a timeline, by its name; null where there is none. */
export function planNamed(documents: Compiled["documents"], name: string): TimedPlan | null {
  return timed(resultsNamed(documents, name).find(({ timeline }) => timeline));
}

/** A plan of the notebook that can be run, by its name; no time is spent on its timeline. */
export function specNamed(documents: Compiled["documents"], name: string): PlanSpec | null {
  return resultsNamed(documents, name).flatMap(({ resolved: { plan } }) => plan ?? [])[0] ?? null;
}

/** A plan is worked out when it is asked for: of the others nothing is. */
function resultsNamed(documents: Compiled["documents"], name: string): readonly PlanResult[] {
  return [...documents.values()]
    .flatMap(({ blocks }) => blocks)
    .flatMap((at) => {
      const { line } = at.block.read;
      return line.kind === "plan" && line.name.text === name ? (at.plan ?? []) : [];
    });
}

/** A plan with its timeline, where it has one. */
export function timed(result: PlanResult | null | undefined): TimedPlan | null {
  return result?.resolved.plan && result.timeline ? { plan: result.resolved.plan, timeline: result.timeline } : null;
}
