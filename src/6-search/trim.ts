import type { Constants } from "../3-plan/assumptions.js";
import { isPairOf, turnsOf } from "../3-plan/plan.js";
import type { Abilities } from "../4-timeline/ability.js";
import { Recording } from "../4-timeline/recording.js";
import { Simulator } from "../4-timeline/simulator.js";
import { type DraftPlan, type DraftTurn, type FreeSize, isFree, type SetSize, mapLanes, planOf, stepsFor } from "./draft.js";
import { sizeKey } from "./numbers.js";
import { saidOnce } from "./turn-order.js";

/** Names of pairs, in the order in which they are met. */
export function pairNamed(nth: number): string {
  return "ABCDEFGHIJKLMNO"[nth] ?? `P${nth}`;
}

/**
 * A draft as it is told: without the turns, the last steps of ladders and the rests that its day on paper never comes to, no set
 * larger than what its stage has left for it, nothing twice over; with reps for percentages that come to the same reps for all of
 * a lane, and with a name for each pair that works; itself where it stands so. `only`: so in that block alone.
 */
export function trimmed(draft: DraftPlan, abilities: Abilities, constants: Constants, only: number | null = null): DraftPlan {
  const plan = planOf(draft);
  const recording = new Recording();
  new Simulator(plan, abilities, constants, draft.event.capS).run(null, recording);
  const passes = new Map<number, number>();
  const done = new Map<number, number[]>();
  for (const { step, pass, athletes } of recording.turns) {
    passes.set(step, Math.max(passes.get(step) ?? 0, pass + 1));
    (done.get(step) ?? done.set(step, []).get(step))?.push(athletes.reduce((sum, { reps }) => sum + reps, 0));
  }
  // Turns of the plan stand in the order of the draft's.
  const ids = turnsOf(plan.steps).map(({ id }) => id);
  let [at, cut] = [0, false];
  const short = mapLanes(draft, (lane, block) => {
    const { stage, lanes } = block;
    if (only !== null && draft.blocks[only] !== block) {
      at += lane.turns.length;
      return lane;
    }
    const { target = null, rounds = false } = draft.event.stages[stage] ?? {};
    const ends = lanes.length === 1 && target !== null && !rounds;
    let passesOfLane = 0;
    const turns = lane.turns.flatMap((turn): readonly DraftTurn[] => {
      const id = ids[at] ?? 0;
      const times = passes.get(id) ?? 0;
      at += 1;
      passesOfLane = Math.max(passesOfLane, times);
      const { size } = turn;
      const then = !isFree(size) ? size : asFarAsItGoes(firstSteps(size, times), ends && turn.who.length === 1 ? (done.get(id) ?? []) : []);
      cut ||= (times === 0 && size.kind !== "item") || then !== size;
      return times === 0 && size.kind !== "item" ? [] : [{ ...turn, size: then }];
    });
    const neverRests = passesOfLane === 1 && typeof lane.rest === "number" && lane.rest > 0;
    cut ||= neverRests;
    const left = turns.length > 0 ? { ...lane, turns, rest: neverRests ? 0 : lane.rest } : lane;
    const once = saidOnce(left);
    cut ||= once !== left;
    return once;
  });
  return inReps(withPairs(cut ? short : draft));
}

/** The steps of a ladder that some passes come to. */
function firstSteps(size: FreeSize, passes: number): SetSize {
  if (size.kind === "percent") return size.percents.length <= passes ? size : { ...size, percents: size.percents.slice(0, passes) };
  return size.steps.length <= passes ? size : { ...size, steps: size.steps.slice(0, passes) };
}

/** No set of a ladder, and no set that is done but once, is larger than what its stage has left for it; `done`: reps by pass. */
function asFarAsItGoes(size: SetSize, done: readonly number[]): SetSize {
  if (size.kind !== "reps" || done.length === 0 || done.length !== size.steps.length) return size;
  const steps = size.steps.map((reps, pass) => Math.max(1, Math.min(reps, done[pass] ?? reps)));
  const broken = steps.some((reps, pass) => reps > (size.steps[pass] ?? 0) / size.parts);
  return steps.join() === size.steps.join() ? size : { ...size, steps, parts: broken ? size.parts : 1 };
}

/** Those who work in pairs under a name; names of pairs that never do are gone. */
function withPairs(draft: DraftPlan): DraftPlan {
  const { blocks, pairs } = draft;
  const casts = new Map(blocks.flatMap(({ lanes }) => lanes.flatMap(({ turns }) => turns.map(({ who }) => [who.join(), who] as const))));
  const twos = [...casts.values()].filter(({ length }) => length === 2);
  const used = pairs.filter((pair) => twos.some((two) => isPairOf(pair, two)));
  const unnamed = twos.filter((two) => !pairs.some((pair) => isPairOf(pair, two)));
  if (used.length === pairs.length && unnamed.length === 0) return draft;
  const free = Array.from({ length: twos.length + pairs.length }, (_, nth) => pairNamed(nth)).filter(
    (name) => !used.some((pair) => pair.name === name),
  );
  return { ...draft, pairs: [...used, ...unnamed.map((athletes, at) => ({ name: free[at] ?? "", athletes, span: { from: 0, to: 0 } }))] };
}

/** Percentages that are one number of reps for all of a lane who do them, as that number; the draft itself where none is. */
function inReps(draft: DraftPlan): DraftPlan {
  let told = false;
  const changed = mapLanes(draft, (lane, { stage }) => {
    const turns = lane.turns.map((turn): DraftTurn => {
      const { size } = turn;
      if (size.kind !== "percent") return turn;
      const alike = lane.turns.filter((one) => sizeKey(one.size) === sizeKey(size));
      const ladders = alike.flatMap(({ who }) => who.map((name) => stepsFor(size, draft.best(name, stage))));
      const [steps = []] = ladders;
      if (ladders.some((ladder) => ladder.join() !== steps.join())) return turn;
      told = true;
      return { ...turn, size: { kind: "reps", steps, parts: 1 } };
    });
    return { ...lane, turns };
  });
  return told ? changed : draft;
}
