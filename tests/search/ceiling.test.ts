/** A bound that no plan passes: by random plans, by what the search finds, and met exactly where fatigue plays no part. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { arrangements } from "../../src/6-search/arrange.js";
import { ceiling } from "../../src/6-search/ceiling.js";
import { type DraftPlan, planOf } from "../../src/6-search/draft.js";
import { suggest } from "../../src/6-search/suggest.js";
import { Simulator } from "../../src/4-timeline/simulator.js";
import { compileText } from "../notebook.js";
import { events, ground, problemOf } from "./events.js";

const randomPlans = 10_000;

/** The same arrangement with sizes and rests at random. */
function shaken(draft: DraftPlan, numbers: readonly number[]): DraftPlan {
  let at = 0;
  const next = (most: number): number => Math.floor((numbers[at++ % numbers.length] ?? 0) * most);
  return {
    ...draft,
    blocks: draft.blocks.map((block) => ({
      ...block,
      lanes: block.lanes.map((lane) => ({
        ...lane,
        rest: next(40),
        turns: lane.turns.map((turn) =>
          turn.size.kind === "round"
            ? turn
            : { ...turn, size: { kind: "reps" as const, steps: Array.from({ length: 1 + next(3) }, () => 1 + next(25)), parts: 1 } },
        ),
      })),
    })),
  };
}

describe.each(Object.entries(events))("the ceiling of %s", (_, text) => {
  const { event, team, abilities, constants } = problemOf(text);
  const bound = ceiling(event, team, abilities, constants);
  const passes = (score: number): boolean => bound !== null && (event.score === "time" ? score < bound - 1e-6 : score > bound + 1e-6);

  it("is there, and is not passed by random plans", () => {
    expect(bound).toBeGreaterThan(0);
    const kinds = arrangements(event, team, abilities);
    const clean = fc.array(fc.double({ min: 0, max: 0.999, noNaN: true }), { minLength: 24, maxLength: 24 });
    fc.assert(
      fc.property(fc.nat(kinds.length - 1), clean, (kind, numbers) => {
        const draft = shaken(kinds[kind]?.draft ?? { event, team, pairs: [], rules: [], blocks: [], best: () => 1 }, numbers);
        const { endS, finished, reps } = new Simulator(planOf(draft), abilities, constants, event.capS).run();
        return event.score === "reps" ? !passes(reps) : !finished || !passes(endS);
      }),
      { seed: 20260314, numRuns: Math.ceil(randomPlans / Object.keys(events).length) },
    );
  });

  it("is not passed by what the search finds", () => {
    for (const { steps, suggestions } of suggest(event, team, abilities, constants)) {
      if (steps % 100 > 0) continue;
      for (const { draft, worth } of suggestions) {
        const { finished } = new Simulator(planOf(draft), abilities, constants, event.capS).run();
        if (event.score === "reps" || finished) expect(passes(worth.score)).toBe(false);
      }
      if (steps >= 400) break;
    }
  });
});

describe("the bound by hand", () => {
  it("one at work who never tires: 40 reps of 2 s take 80 s", () => {
    const { event, team, abilities, constants } = problemOf(`${ground(100_000, 0)}event Test\n  working at most 1\n  stage 40 squat\n`);
    expect(ceiling(event, team, abilities, constants)).toBeCloseTo(80, 4);
  });

  it("a buy-in takes its time: after 40 reps of 2 s, 20 s are left of 100 for 10 more", () => {
    const { event, team, abilities, constants } = problemOf(
      `${ground(100_000, 0)}event Test\n  score reps\n  cap 100 s\n  working at most 1\n  stage first 40 squat\n  stage squat\n`,
    );
    expect(ceiling(event, team, abilities, constants)).toBeCloseTo(50, 4);
  });

  it("two at work: the fastest two of 2, 2.2, 2.4 and 2.6 s do 1/2 + 1/2.2 reps a second", () => {
    const { event, team, abilities, constants } = problemOf(`${ground(100_000, 0)}event Test\n  working at most 2\n  stage 42 squat\n`);
    // The two fastest fill both places all the time: 42 / (1/2 + 1/2.2) = 44 s.
    expect(ceiling(event, team, abilities, constants)).toBeCloseTo(44, 4);
  });

  it("in step, a rep is no faster than the slower of the two fastest and 0.3 s: 40 · 2.5 s", () => {
    const { event, team, abilities, constants } = problemOf(
      `${ground(100_000, 0)}event Test\n  working at most 2\n  stage 40 squat in sync\n`,
    );
    expect(ceiling(event, team, abilities, constants)).toBeCloseTo(100, 4);
  });

  it("says nothing of an event that sets neither work nor time", () => {
    const { event, team, abilities, constants } = problemOf(`${ground(20, 50)}event Test\n  stage squat\n`);
    expect(ceiling(event, team, abilities, constants)).toBeNull();
  });
});

it("the ground of these tests compiles without an error", () => {
  for (const text of Object.values(events))
    expect(
      [...compileText(text).documents.values()].flatMap(({ blocks }) =>
        blocks.flatMap(({ findings }) => findings.map(({ message }) => message)),
      ),
    ).toEqual([]);
});
