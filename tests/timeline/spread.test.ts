/** How sure: seeded draws, checked against the log-normal distribution they are said to come from. */
import { describe, expect, it } from "vitest";
import { loadFor, turnsOf } from "../../src/3-plan/plan.js";
import { Simulator } from "../../src/4-timeline/simulator.js";
import { Draw } from "../../src/4-timeline/draw.js";
import { simulate } from "../../src/4-timeline/simulate.js";
import { chanceToBeat, type Days, oftenPastCap, runDays, spreadOf } from "../../src/4-timeline/spread.js";
import { compile } from "../../src/compile.js";
import { compileText, findingsOf, lighthouse, timelineOf } from "../notebook.js";

const compiled = compile(lighthouse);
const {
  abilities,
  world: { constants },
} = compiled.kept;
const plans = [...compiled.documents.values()].flatMap(({ blocks }) =>
  blocks.flatMap(({ plan }) => (plan?.resolved.plan ? [plan.resolved.plan] : [])),
);
const planNamed = (name: string) => plans.filter((plan) => plan.name === name);

function meanAndDeviation(values: readonly number[]): readonly [number, number] {
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
  return [mean, Math.sqrt(values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / values.length)];
}

describe("a draw", () => {
  const draws = 20_000;
  const sample = (of: (draw: Draw) => number): readonly [number, number] => {
    const draw = new Draw(7);
    return meanAndDeviation(
      Array.from({ length: draws }, (_, at) => {
        draw.go(at);
        return Math.log(of(draw));
      }),
    );
  };

  it.each([
    ["form and test error: √(5 %² + 4 %²)", (draw: Draw) => draw.ability(1, 99), Math.hypot(0.05, 0.04)],
    ["cycle time of the day: 2 %", (draw: Draw) => draw.cycle(1), 0.02],
    ["cycle time of a set: 3 %", (draw: Draw) => draw.set(0, 5), 0.03],
    ["handover: 20 %", (draw: Draw) => draw.handover(3), 0.2],
  ])("has the deviation of the model: %s", (_, of, deviation) => {
    const [mean, found] = sample(of);
    // Four standard errors: σ/√n of a mean, σ/√(2n) of a deviation.
    expect(Math.abs(mean)).toBeLessThan((4 * deviation) / Math.sqrt(draws));
    expect(Math.abs(found - deviation)).toBeLessThan((4 * deviation) / Math.sqrt(2 * draws));
  });

  it("is one thing for each athlete and set: what two share is not correlated", () => {
    const draw = new Draw(7);
    const pairs = Array.from({ length: draws }, (_, at) => {
      draw.go(at);
      return Math.log(draw.set(0, 5)) * Math.log(draw.set(1, 5));
    });
    expect(Math.abs(meanAndDeviation(pairs)[0])).toBeLessThan((4 * 0.03 * 0.03) / Math.sqrt(draws));
  });
});

describe("days of a plan", () => {
  it("without chance are the timeline itself, to the bit: one clock makes both", () => {
    for (const plan of plans) {
      const { endS, reps } = new Simulator(plan, abilities, constants, plan.event.capS).run();
      const timeline = simulate(plan, abilities, constants);
      expect([endS, reps]).toEqual([timeline.endS, timeline.stages.reduce((sum, stage) => sum + stage.reps, 0)]);
    }
  });

  it("are the same for the same seed, and a part of them is the same part", () => {
    const [plan] = planNamed("Steady");
    if (!plan) throw new Error("the demo has no plan Steady");
    const whole = runDays(plan, abilities, constants, { seed: 3, to: 60 });
    const part = runDays(plan, abilities, constants, { seed: 3, from: 20, to: 40 });
    expect([...part.scores]).toEqual([...whole.scores.slice(20, 40)]);
    expect([...runDays(plan, abilities, constants, { seed: 4, to: 60 }).scores]).not.toEqual([...whole.scores]);
  });

  it("surround what is expected: the middle day within 5 % of it where recovery was tested, within 8 % where it is drawn too", () => {
    for (const plan of plans) {
      const untested = turnsOf(plan.steps).some(({ who, works }) =>
        works.some(({ movement, load }) =>
          who.some((name) => abilities.movement(name, movement, loadFor(plan.team, name, load)).origins.recovery.kind === "assumed"),
        ),
      );
      const { score } = simulate(plan, abilities, constants);
      const { p10, p50, p90 } = spreadOf(runDays(plan, abilities, constants));
      expect(p10).toBeLessThanOrEqual(p50);
      expect(p50).toBeLessThanOrEqual(p90);
      expect(Math.abs(p50 / score.value - 1)).toBeLessThan(untested ? 0.08 : 0.05);
    }
  });

  it("a plan of handovers alone spreads as they do", () => {
    // 40 reps that do not vary but by pace (3 %), 39 handovers of 60 s that vary by 20 %: the sum's deviation is √39 · σ.
    const compiledText = compileText(
      "team Pier Nine\n  Ada woman\n  Olu man\nability Ada Olu\n  box jump unbroken 500 500 reps\n  box jump cycle 0.3 0.3 s\n  box jump fade 0 0 %\nevent Sprint\n  handover 60 s\n  setup 0 s\n  stage 40 box jump\nplan P for Sprint\n  repeat\n    Ada 1\n    Olu 1\n",
    );
    const plan = [...compiledText.documents.values()].flatMap(({ blocks }) =>
      blocks.flatMap((block) => block.plan?.resolved.plan ?? []),
    )[0];
    if (!plan) throw new Error("no plan");
    const [mean, deviation] = meanAndDeviation([
      ...runDays(plan, compiledText.kept.abilities, compiledText.kept.world.constants, { to: 4_000 }).scores,
    ]);
    // Of a log-normal factor with σ = 0.2: mean e^(σ²/2), deviation mean · √(e^σ² − 1).
    const factor = Math.exp(0.02);
    expect(mean / (40 * 0.3 + 39 * 60 * factor)).toBeCloseTo(1, 2);
    expect(deviation / (Math.sqrt(39) * 60 * factor * Math.sqrt(Math.exp(0.04) - 1))).toBeCloseTo(1, 1);
  });
});

describe("a recovery that nobody tested", () => {
  const text = (tested: string): string =>
    `team Pier Nine\n  Ada woman\n  Olu man\nability Ada Olu\n  box jump unbroken 12 14 reps\n  box jump cycle 2.2 2 s\n${tested}event Sprint\n  score reps\n  cap 5 min\n  stage box jump\nplan P for Sprint\n  repeat\n    Ada 4\n    Olu 4\n    rest 8 s\n`;
  const widthOf = (tested: string): number => {
    const compiled = compileText(text(tested));
    const plan = [...compiled.documents.values()].flatMap(({ blocks }) => blocks.flatMap((block) => block.plan?.resolved.plan ?? []))[0];
    if (!plan) throw new Error("no plan");
    const { p10, p90 } = spreadOf(runDays(plan, compiled.kept.abilities, compiled.kept.world.constants));
    return p90 - p10;
  };

  it("is drawn too: the score is less sure than with a test that says the same", () => {
    // 35.4 and 39.5 reps in five minutes are what the model gives with the recovery 1.
    expect(widthOf("")).toBeGreaterThan(widthOf("  box jump recovery 1 1\n"));
  });
});

describe("one plan against another", () => {
  const days = (kind: "time" | "reps", scores: readonly number[]): Days => ({
    kind,
    capS: null,
    scores: Float64Array.from(scores),
    missed: new Map(),
    dropped: new Map(),
    troubled: 0,
  });

  it("wins day by day: the smaller time, the larger number of reps, half for a draw", () => {
    expect(chanceToBeat(days("time", [10, 20, 30, 40]), days("time", [11, 19, 30, 50]))).toBe((1 + 0 + 0.5 + 1) / 4);
    expect(chanceToBeat(days("reps", [10, 20]), days("reps", [9, 30]))).toBe(0.5);
  });

  it("a copy of itself is a draw on every day: both meet the same chance", () => {
    const [plan] = planNamed("Split");
    if (!plan) throw new Error("the demo has no plan Split");
    expect(chanceToBeat(runDays(plan, abilities, constants, { to: 200 }), runDays(plan, abilities, constants, { to: 200 }))).toBe(0.5);
  });
});

describe("more than one day in ten past the cap", () => {
  const sprint = (capS: number): string =>
    `team Pier Nine\n  Ada woman\n  Olu man\nability Ada Olu\n  box jump unbroken 40 40 reps\n  box jump cycle 2 2 s\nevent Sprint\n  cap ${capS} s\n  stage 40 box jump\nplan P for Sprint\n  repeat\n    Ada 10\n    Olu 10\n`;
  const whole = Math.ceil(timelineOf(compileText(sprint(900))).endS);

  it("the sequential test says what a thousand days say, wherever that is clear", () => {
    for (let capS = whole; capS < whole + 12; capS += 1) {
      const text = compileText(sprint(capS));
      const plan = [...text.documents.values()].flatMap(({ blocks }) => blocks.flatMap((block) => block.plan?.resolved.plan ?? []))[0];
      if (!plan) throw new Error("no plan");
      const past = 1 - spreadOf(runDays(plan, text.kept.abilities, text.kept.world.constants)).finishes;
      if (past > 0.06 && past < 0.16) continue;
      expect([capS, oftenPastCap(plan, text.kept.abilities, text.kept.world.constants)]).toEqual([capS, past > 0.1]);
    }
  });

  it("is a note, and none where the cap is far", () => {
    const found = (capS: number) =>
      findingsOf(compileText(sprint(capS)))
        .filter(({ rule }) => rule === "runs-over-cap")
        .map(({ severity }) => severity);
    expect(found(whole)).toEqual(["note"]);
    expect(found(whole * 2)).toEqual([]);
  });
});

describe("lanes side by side on drawn days", () => {
  it("reach their common target on every day that has the time: what one lane draws does not hang on how long the other runs", () => {
    const text = `team Harbour Six\n  Ada woman\n  Eda woman\n  Ian man\n  Olu man\nability  Ada  Eda  Ian  Olu\n  squat  unbroken  32 26 40 34  reps\n  squat  cycle  2.2 2.3 2 2.1  s\nevent Double\n  score time\n  working at most 2\n  stage 220 squat\nplan P for Double\n  lane one\n    repeat\n      Ada 10\n      Eda 10\n  lane two\n    repeat\n      Ian 10\n      Olu 10\n`;
    const { documents, daysOf } = compileText(text);
    const [plan] = [...documents.values()].flatMap(({ blocks }) => blocks.flatMap((block) => block.plan ?? []));
    const days = plan && daysOf(plan);
    expect(days?.scores.length).toBe(1000);
    expect(days?.scores.filter((score) => !Number.isFinite(score)).length).toBe(0);
  });
});
