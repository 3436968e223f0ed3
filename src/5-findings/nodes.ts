import type { Span } from "../0-base/span.js";
import { type RuleSource, sourcesOf } from "../3-plan/limits.js";
import type { PlanSpec } from "../3-plan/plan.js";
import type { Abilities } from "../4-timeline/ability.js";
import type { Timeline } from "../4-timeline/timeline.js";
import type { Judged } from "./rule.js";

export interface Simulated {
  readonly plan: PlanSpec;
  readonly timeline: Timeline;
  readonly abilities: Abilities;
  readonly spanOf: (step: number) => Span;
  /** Where rules come from: the event, the team, the plan. */
  readonly sources: readonly RuleSource[];
}

/** The plan a block stands for with its timeline; null where it has none. */
export function simulatedPlan({ plan: result, line, evaluation }: Judged): Simulated | null {
  if (!result?.resolved.plan || !result.timeline) return null;
  const { nodes } = result.resolved.plan;
  return {
    plan: result.resolved.plan,
    timeline: result.timeline,
    abilities: evaluation.abilities,
    spanOf: (step) => nodes[step]?.span ?? line.span,
    sources: sourcesOf(result.resolved.plan),
  };
}
