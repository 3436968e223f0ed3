import type { Constants } from "../3-plan/assumptions.js";
import type { PlanSpec } from "../3-plan/plan.js";
import type { Abilities } from "./ability.js";
import { Clock, type StageState } from "./clock.js";
import { Recording } from "./recording.js";
import { gapless, totalsOf } from "./segments.js";
import type { StageRun, Timeline } from "./timeline.js";

/**
 * plan → the expected timeline; the same input gives the same output to the bit. `ignoreCap` asks how long the plan
 * would take if nothing cut it.
 */
export function simulate(plan: PlanSpec, abilities: Abilities, constants: Constants, { ignoreCap = false } = {}): Timeline {
  const capS = ignoreCap ? null : plan.event.capS;
  const recording = new Recording();
  const { endS, finished, reps, stopped, stages } = new Clock(plan, abilities, constants, capS).run(null, recording);
  const names = plan.team.athletes.map(({ name }) => name);
  const segments = gapless(recording.segments, names, endS);
  return {
    endS,
    capS,
    score: plan.event.score === "time" ? { kind: "time", value: endS, finished } : { kind: "reps", value: reps, finished: true },
    stopped,
    stages: stages.map((stage) => stageRun(stage, plan, names)),
    turns: recording.turns,
    rests: recording.rests,
    reserves: recording.reserves,
    repeats: recording.repeats,
    athletes: totalsOf(segments, names, endS),
    segments,
  };
}

function stageRun({ index, step, startS, endS, units, reps, rounds, target, repsBy }: StageState, plan: PlanSpec, names: readonly string[]): StageRun {
  const by = Object.fromEntries(names.flatMap((name, place) => (repsBy[place] ? [[name, repsBy[place]]] : [])));
  return { stage: index, name: plan.event.stages[index]?.name ?? "", step, startS, endS, reps, rounds, target, reached: target !== null && units >= target, repsBy: by };
}
