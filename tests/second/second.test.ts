/**
 * The simulator against a second one, written from `grammar/timeline.md` by a hand that had not read the first: moments by
 * bisection, targets by running the whole plan again. PLANS=5000 tries as many; a fixed part runs with the other tests.
 */
import { describe, expect, it } from "vitest";
import type { PlanSpec } from "../../src/3-plan/plan.js";
import { simulate } from "../../src/4-timeline/simulate.js";
import { compileText } from "../notebook.js";
import { randomPlan } from "./plans.js";
import { type Knowledge, secondSimulate } from "./second-simulator.js";

const plans = Number(process.env.PLANS ?? 400);
const from = Number(process.env.FROM ?? 0);
const apartS = 0.05;

/** What both are told; the random plan of a seed. */
function given(seed: number): { readonly plan: PlanSpec; readonly compiled: ReturnType<typeof compileText>; readonly know: Knowledge } {
  const compiled = compileText(randomPlan(seed));
  const { abilities } = compiled.kept;
  const plan = [...compiled.documents.values()].flatMap(({ blocks }) => blocks.flatMap((block) => block.plan?.resolved.plan ?? []))[0];
  if (!plan) throw new Error(`no plan from seed ${seed}`);
  const know: Knowledge = {
    movement: (athlete, movement, loadKg) => abilities.movement(athlete, movement, loadKg).reserve,
    holdS: (athlete, hold) => abilities.hold(athlete, hold).seconds,
    overlap: (one, other) => abilities.overlap(one, other),
  };
  return { plan, compiled, know };
}

describe("two simulators, one prose", () => {
  it(`agree on ${plans} random plans of all constructs, to ${apartS} s and the rep`, () => {
    const apart: string[] = [];
    for (let seed = from; seed < from + plans; seed += 1) {
      const { plan, compiled, know } = given(seed);
      const {
        abilities,
        world: { constants },
      } = compiled.kept;
      const first = simulate(plan, abilities, constants);
      const second = secondSimulate(plan, know, constants);
      const reps = first.stages.reduce((sum, stage) => sum + stage.reps, 0);
      if (Math.abs(first.endS - second.endS) > apartS || reps !== second.reps || first.turns.length !== second.turns.length) {
        apart.push(
          `seed ${seed}: ${first.endS} s, ${reps} reps, ${first.turns.length} turns; the second ${second.endS} s, ${second.reps} reps, ${second.turns.length} turns`,
        );
      }
    }
    expect(apart).toEqual([]);
  }, 1_200_000);
});
