/** What moves a score, and where the order of two plans turns: checked on plans whose arithmetic can be done by hand. */
import { describe, expect, it } from "vitest";
import { Draw, subjectNumber } from "../../src/4-timeline/draw.js";
import { ceilingReps } from "../../src/4-timeline/models/reserve.js";
import { breakEvensOf, moversOf, noRepBreakEven } from "../../src/4-timeline/sensitivity.js";
import { usualSeed } from "../../src/4-timeline/spread.js";
import { noRepLine } from "../../src/7-view/why-words.js";
import { compileText } from "../notebook.js";

const ground =
  "team Pier Nine\n  Ada woman\n  Olu man\nability Ada Olu\n  box jump unbroken 1000 1000 reps\n  box jump cycle 2 2 s\n  box jump fade 0 0 %\n  box jump recovery 1 1\n";
const plansOf = (text: string) => {
  const compiled = compileText(text);
  const plans = [...compiled.documents.values()].flatMap(({ blocks }) => blocks.flatMap((block) => block.plan?.resolved.plan ?? []));
  return { plans, abilities: compiled.kept.abilities, constants: compiled.kept.world.constants };
};

describe("what moves a score", () => {
  it("39 handovers from 2 to 5 s are 117 s, and the first thing said", () => {
    const {
      plans: [plan],
      abilities,
      constants,
    } = plansOf(`${ground}event E\n  setup 0 s\n  stage 40 box jump\nplan P for E\n  repeat\n    Ada 1\n    Olu 1\n`);
    const [first] = plan ? moversOf(plan, abilities, constants) : [];
    expect(first?.what).toEqual({ kind: "constant", name: "handover" });
    // The days' own handovers spread by 20 % around: their mean is e^0.02 of it.
    expect(((first?.high ?? 0) - (first?.low ?? 0)) / (39 * 3 * Math.exp(0.02))).toBeCloseTo(1, 1);
  });

  it("a recovery that nobody tested is among them, and a tested one is not", () => {
    const tired = (recovery: string): string =>
      `${ground.replace(/1000/g, "12").replace("  box jump recovery 1 1\n", recovery)}event E\n  score reps\n  cap 5 min\n  handover 3 s\n  setup 0 s\n  stage box jump\nplan P for E\n  repeat\n    Ada 5\n    Olu 5\n`;
    const kinds = (text: string) => {
      const {
        plans: [plan],
        abilities,
        constants,
      } = plansOf(text);
      return plan ? moversOf(plan, abilities, constants).map(({ what }) => what.kind) : [];
    };
    expect(kinds(tired(""))).toContain("recovery");
    expect(kinds(tired("  box jump recovery 1 1\n"))).not.toContain("recovery");
  });
});

describe("where the order of two plans turns", () => {
  it("many short turns against few long ones with a rest: at the handover that the rest is worth", () => {
    // Short: 9 handovers. Long: 1 handover and 24 s of rest. They are level where 8 handovers are 24 s: at 3 s, a little
    // less with their mean.
    const {
      plans: [short, long],
      abilities,
      constants,
    } = plansOf(
      `${ground}event E\n  setup 0 s\n  stage 20 box jump\nplan Short for E\n  repeat\n    Ada 2\n    Olu 2\nplan Long for E\n  Ada 10\n  rest 24 s\n  Olu 10\nassume handover 2.5 s\n`,
    );
    const found = short && long ? [...breakEvensOf(short, long, abilities, constants)] : [];
    const at = found.find(({ name }) => name === "handover")?.at ?? Number.NaN;
    expect(at).toBeGreaterThan(2.7);
    expect(at).toBeLessThan(3.3);
    expect(found.filter(({ name }) => name !== "handover").map(({ at: other }) => other)).toEqual(
      found.filter(({ name }) => name !== "handover").map(() => null),
    );
  });
});

describe("two pairings in step", () => {
  it("turn where the model's closed form says, athletes ranked 1 to 4 and reserves limiting: q* = (C₂ − C₃)/C₄", () => {
    const {
      plans: [best, split],
      abilities,
      constants,
    } = plansOf(`team Pier Nine
  Ada woman
  Bo man
  Cy woman
  Di man
ability Ada Bo Cy Di
  squat unbroken 24 20 15 12 reps
  squat cycle 2 2 2 2 s
  squat fade 0 0 0 0 %
  squat recovery 1 1 1 1
assume ready margin 0 %
event E
  score reps
  cap 10 min
  handover 0 s
  setup 0 s
  stage squat in sync
plan Best for E
  lane a
    repeat, each when ready
      Ada + Bo 1
  lane b
    repeat, each when ready
      Cy + Di 1
plan Split for E
  lane a
    repeat, each when ready
      Ada + Di 1
  lane b
    repeat, each when ready
      Bo + Cy 1
`);
    if (!best || !split) throw new Error("a plan is missing");
    const found = noRepBreakEven(best, split, abilities, constants);
    expect(found?.pair).toEqual(["Cy", "Di"]);
    const ceilings = ["Ada", "Bo", "Cy", "Di"].map((name) => ceilingReps(abilities.movement(name, "squat", null).reserve, 600));
    const [, second = 0, third = 0, fourth = 1] = ceilings;
    // As expected. Over days it is less: whoever of a pair has the worse day limits it.
    expect((second - third) / fourth).toBeCloseTo(0.28, 2);
    const draw = new Draw(usualSeed);
    const mean = (one: number, other: number): number => {
      let sum = 0;
      for (let day = 0; day < 32; day += 1) {
        draw.go(day);
        const on = (place: number): number => (ceilings[place] ?? 0) * draw.ability(place, subjectNumber("squat"));
        sum += Math.min(on(one), on(other));
      }
      return sum / 32;
    };
    const closed = 1 - (mean(0, 3) + mean(1, 2) - mean(0, 1)) / mean(2, 3);
    expect(closed).toBeGreaterThan(0.24);
    expect(Math.abs((found?.at ?? 0) - closed)).toBeLessThan(0.02);
  });
});

describe("what a pair may lose, in words", () => {
  it.each([
    [0.004, "Split wins only if Cy and Di lose a few of their tries to no-reps."],
    [0.09, "Split wins only if Cy and Di lose more than 1 try in 11 to no-reps."],
    [0.5, "Split wins only if Cy and Di lose more than 50 % of their tries to no-reps."],
    [null, null],
  ])("%s", (at, words) => expect(noRepLine({ pair: ["Cy", "Di"], at }, "Split")).toBe(words));
});
