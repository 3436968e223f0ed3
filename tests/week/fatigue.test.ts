/** What an event leaves in the body, and what that costs the next: the arithmetic of the model's section on the week. */
import { describe, expect, it } from "vitest";
import { bodyParts } from "../../src/3-plan/world.js";
import { backAt, capacityUnder, loadAfter, loadOf } from "../../src/4-timeline/fatigue.js";
import { subjectNumber } from "../../src/4-timeline/draw.js";
import { answersOf, compileText } from "../notebook.js";

const ground = `team Pier Nine
  Ada woman
  Olu man
movement box jump
  asks squat 60 %, engine 40 %
hold stone
  asks grip 50 %, trunk 50 %
ability  Ada  Olu
  box jump  unbroken  20  24  reps
  box jump  cycle  2  2  s
  box jump  fade  0  0  %
  box jump  recovery  1  1
  stone  hold  60  90  s
event Steps
  cap 30 min
  setup 0 s
  handover 0 s
  stage 40 box jump while 1 hold stone
plan P for Steps
  repeat
    Ada 5 while Olu hold
    rest 60 s
`;

function planIn(text: string) {
  const compiled = compileText(text);
  const plan = [...compiled.documents.values()].flatMap(({ blocks }) =>
    blocks.flatMap((block) =>
      block.plan?.resolved.plan && block.plan.timeline ? [{ plan: block.plan.resolved.plan, timeline: block.plan.timeline }] : [],
    ),
  )[0];
  if (!plan) throw new Error("no plan");
  return { ...plan, ...compiled.kept };
}

describe("what an event leaves", () => {
  it("40 reps of a best 20 are two sets: 1.2 in the squat, 0.8 in the engine; 80 s of a hold of 90 s are 0.444 in grip and trunk", () => {
    const { plan, timeline, abilities } = planIn(ground);
    const load = loadOf(plan, timeline, abilities);
    const of = (athlete: string, part: (typeof bodyParts)[number]): number => load.get(athlete)?.[bodyParts.indexOf(part)] ?? Number.NaN;
    expect(of("Ada", "squat")).toBeCloseTo(1.2, 9);
    expect(of("Ada", "engine")).toBeCloseTo(0.8, 9);
    expect(of("Ada", "grip")).toBe(0);
    expect(of("Olu", "grip")).toBeCloseTo((80 / 90) * 0.5, 6);
    expect(of("Olu", "squat")).toBe(0);
  });

  it("after 48 h half of the squat's is left and 2^(−48/18) of the engine's; 4 % a unit of what asks for a part alone", () => {
    const {
      plan,
      timeline,
      abilities,
      world: { constants },
    } = planIn(ground);
    const later = loadAfter(loadOf(plan, timeline, abilities), 48 * 3600, constants);
    const [squat, engine] = [0.6, 0.8 * 2 ** (-48 / 18)];
    expect(later.get("Ada")?.[bodyParts.indexOf("squat")]).toBeCloseTo(squat, 9);
    expect(later.get("Ada")?.[bodyParts.indexOf("engine")]).toBeCloseTo(engine, 9);
    expect(backAt(1, constants)).toBeCloseTo(0.96, 12);
    const left = capacityUnder(later, plan, abilities, constants);
    expect(left(0, subjectNumber("box jump"))).toBeCloseTo(0.96 ** (0.6 * squat + 0.4 * engine), 9);
    expect(left(1, subjectNumber("box jump"))).toBe(1);
  });

  it("half-lives and cost are set by assume", () => {
    const {
      plan,
      timeline,
      abilities,
      world: { constants },
    } = planIn(`${ground}assume squat half-life 24 h\nassume load cost 10 %\n`);
    const later = loadAfter(loadOf(plan, timeline, abilities), 48 * 3600, constants);
    expect(later.get("Ada")?.[bodyParts.indexOf("squat")]).toBeCloseTo(0.3, 9);
    expect(backAt(1, constants)).toBeCloseTo(0.9, 12);
  });
});

describe("the load of a week", () => {
  it("effort 8 over 40 reps and seven minutes of rest, 8:20, is 66.7; six days without another", () => {
    const answers = answersOf(compileText(`${ground}week One\n  2026-03-20 10:00 Steps plan P effort 8\n`));
    // One day of seven: mean load/7, deviation of the population load·√6/7, monotony 1/√6.
    expect(answers.get(23)).toMatch(/load 67 · monotony 0\.4, strain 27$/);
  });
});
