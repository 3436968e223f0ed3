import type { Constants } from "../3-plan/assumptions.js";
import { turnsOf } from "../3-plan/plan.js";
import type { Abilities } from "../4-timeline/ability.js";
import { Recording } from "../4-timeline/recording.js";
import { Simulator } from "../4-timeline/simulator.js";
import { type DraftPlan, type DraftTurn, mapLanes, planOf, stepsFor } from "./draft.js";
import { sizeKey } from "./numbers.js";

/**
 * A draft as it is told: without the turns, and without the last steps of ladders, that its day on paper never comes to, and
 * with reps for percentages that come to the same reps for all of a lane; itself where it has none of these.
 */
export function trimmed(draft: DraftPlan, abilities: Abilities, constants: Constants): DraftPlan {
  const plan = planOf(draft);
  const recording = new Recording();
  new Simulator(plan, abilities, constants, draft.event.capS).run(null, recording);
  const passes = new Map<number, number>();
  for (const { step, pass } of recording.turns) passes.set(step, Math.max(passes.get(step) ?? 0, pass + 1));
  // Turns of the plan stand in the order of the draft's.
  const begun = turnsOf(plan.steps).map(({ id }) => passes.get(id) ?? 0);
  let [at, cut] = [0, false];
  const short = mapLanes(draft, (lane) => {
    const turns = lane.turns.flatMap((turn): readonly DraftTurn[] => {
      const times = begun[at] ?? 0;
      at += 1;
      const { size } = turn;
      if (times > 0 && (size.kind !== "reps" || size.steps.length <= times)) return [turn];
      cut = true;
      return times === 0 || size.kind !== "reps" ? [] : [{ ...turn, size: { ...size, steps: size.steps.slice(0, times) } }];
    });
    return turns.length > 0 ? { ...lane, turns } : lane;
  });
  return inReps(cut ? short : draft);
}

/** Percentages that are one number of reps for all of a lane who do them, as that number; the draft itself where none is. */
function inReps(draft: DraftPlan): DraftPlan {
  let told = false;
  const changed = mapLanes(draft, (lane, { stage }) => {
    const turns = lane.turns.map((turn): DraftTurn => {
      const { size } = turn;
      if (size.kind !== "percent") return turn;
      const alike = lane.turns.filter((one) => sizeKey(one.size) === sizeKey(size));
      const reps = new Set(alike.flatMap(({ who }) => who.flatMap((name) => stepsFor(size, draft.best(name, stage)))));
      told ||= reps.size === 1;
      return reps.size === 1 ? { ...turn, size: { kind: "reps", steps: [...reps], parts: 1 } } : turn;
    });
    return { ...lane, turns };
  });
  return told ? changed : draft;
}
