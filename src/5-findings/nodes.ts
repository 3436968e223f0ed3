import type { Span } from "../0-base/span.js";
import type { PlanSpec } from "../3-plan/plan.js";
import type { Abilities } from "../4-timeline/ability.js";
import type { StageRun, Timeline } from "../4-timeline/timeline.js";
import { breachesOf } from "./limits/kinds.js";
import { type Breach, type LimitKind, type Run, type RuleSource, sourcesOf } from "./limits/limit.js";
import type { Judged } from "./rule.js";

export interface Simulated {
  readonly plan: PlanSpec;
  readonly timeline: Timeline;
  readonly abilities: Abilities;
  /** What limits look at. */
  readonly run: Run;
  readonly spanOf: (step: number) => Span;
  /** Where rules come from: the event, the team, the plan. */
  readonly sources: readonly RuleSource[];
}

/** The plan a block stands for with its timeline; null where it has none. */
export function simulatedPlan({ plan: result, line, evaluation }: Judged): Simulated | null {
  if (!result?.resolved.plan || !result.timeline) return null;
  const {
    timeline,
    resolved: { plan },
  } = result;
  const { abilities } = evaluation;
  const { nodes } = plan;
  return {
    plan,
    timeline,
    abilities,
    run: { plan, abilities, stages: timeline.stages, turns: timeline.turns, segments: timeline.segments },
    spanOf: (step) => nodes[step]?.span ?? line.span,
    sources: sourcesOf(plan),
  };
}

/** Where the plan of a block breaks limits of some kinds. */
export function broken(simulated: Simulated, ...kinds: readonly LimitKind[]): readonly Breach[] {
  return breachesOf(simulated.run, simulated.sources, kinds);
}

/** Whether a change of plan breaks a limit more often than the plan as it stands. */
export function breaksMore({ run, abilities, sources }: Simulated, plan: PlanSpec, { stages, turns, segments }: Timeline): boolean {
  return breachesOf({ plan, abilities, stages, turns, segments }, sources).length > breachesOf(run, sources).length;
}

/** A set that would not fit any more ends a stage some seconds before its time is over. */
const cutS = 10;

/** Whether a stage has a time of its own, and stops at it undone. */
export function overItsTime({ stage, startS, endS, reached }: StageRun, { event }: PlanSpec): boolean {
  const withinS = event.stages[stage]?.withinS ?? null;
  return withinS !== null && !reached && endS >= startS + withinS - cutS;
}
