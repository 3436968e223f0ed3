import type { Constants } from "../3-plan/assumptions.js";
import type { PlanSpec } from "../3-plan/plan.js";
import type { Abilities } from "./ability.js";
import type { Condition } from "./condition.js";
import type { Chance } from "./draw.js";
import { instantS } from "./lanes.js";
import { Recording } from "./recording.js";
import { gapless, totalsOf } from "./segments.js";
import { Simulator } from "./simulator.js";
import { reached, type StageState } from "./stage.js";
import type { StageRun, Standing, Timeline, TurnRun } from "./timeline.js";

interface SimulateOptions {
  /** How long would the plan take if nothing cut it? */
  readonly ignoreCap?: boolean;
  /** A day that differs from the expected one. */
  readonly chance?: Chance | null;
  /** How everybody stands at the start; fresh without. */
  readonly from?: Condition | null;
}

/** plan → its timeline; the same input gives the same output to the bit. */
export function simulate(
  plan: PlanSpec,
  abilities: Abilities,
  constants: Constants,
  { ignoreCap = false, chance = null, from = null }: SimulateOptions = {},
): Timeline {
  const capS = ignoreCap ? null : plan.event.capS;
  const recording = new Recording();
  const { endS, finished, reps, stopped, stages } = new Simulator(plan, abilities, constants, capS).run(chance, recording, from);
  const names = plan.team.athletes.map(({ name }) => name);
  const segments = gapless(recording.segments, names, endS);
  return {
    endS,
    capS,
    score: plan.event.score === "time" ? { kind: "time", value: endS, finished } : { kind: "reps", value: reps, finished: true },
    stopped,
    stages: stages.map((stage) => stageRun(stage, plan, names)),
    turns: recording.turns,
    standings: standingsOf(recording.turns, plan),
    rests: recording.rests,
    reserves: recording.reserves,
    repeats: recording.repeats,
    athletes: totalsOf(segments, names, endS),
    segments,
  };
}

function stageRun(state: StageState, plan: PlanSpec, names: readonly string[]): StageRun {
  const { index, step, startS, endS, reps, rounds, tally, repsBy } = state;
  const by = Object.fromEntries(names.flatMap((name, place) => (repsBy[place] ? [[name, repsBy[place]]] : [])));
  const name = plan.event.stages[index]?.name ?? "";
  return { stage: index, name, step, startS, endS, reps, rounds, target: tally.target, reached: reached(state), repsBy: by };
}

/** Counted by the clock, not by the lane: at the end of a turn what all lanes have done by then. */
function standingsOf(turns: readonly TurnRun[], { event }: PlanSpec): readonly Standing[] {
  const windowAt = (atS: number): number => event.windows.findIndex(({ startS, endS }) => startS <= atS && atS < endS);
  const groupOf = ({ stage, startS }: TurnRun): string => `${stage} ${event.stages[stage]?.target === null ? windowAt(startS) : ""}`;
  const dropReps = event.dropCost?.unit === "reps" ? event.dropCost.amount : 0;
  const groups = new Map<string, TurnRun[]>();
  for (const run of turns) {
    const group = groups.get(groupOf(run));
    if (group) group.push(run);
    else groups.set(groupOf(run), [run]);
  }
  const repEnds = new Map(
    [...groups].map(([group, runs]) => [group, Float64Array.from(runs.flatMap(({ repEndsS }) => repEndsS)).sort()] as const),
  );
  return turns.map((run) => {
    const group = groupOf(run);
    const taken =
      dropReps === 0
        ? 0
        : dropReps * (groups.get(group) ?? []).reduce((sum, { endS, drops }) => sum + (endS <= run.endS + instantS ? drops.length : 0), 0);
    const reps = Math.max(0, upTo(repEnds.get(group) ?? new Float64Array(), run.endS + instantS) - taken);
    if (!event.stages[run.stage]?.rounds) return { units: reps, reps };
    const units = (groups.get(group) ?? []).reduce((sum, { endS, counted }) => sum + (endS <= run.endS + instantS ? counted : 0), 0);
    return { units, reps };
  });
}

/** How many of some sorted moments are not later than one. */
function upTo(sorted: Float64Array, atS: number): number {
  let [low, high] = [0, sorted.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((sorted[middle] ?? 0) <= atS) low = middle + 1;
    else high = middle;
  }
  return low;
}
