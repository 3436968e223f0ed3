/** The condition in which a run ends is one in which another can begin: two runs with the rest between are as one. */
import { describe, expect, it } from "vitest";
import { rested } from "../../src/4-timeline/condition.js";
import { Ready } from "../../src/4-timeline/ready.js";
import { Simulator } from "../../src/4-timeline/simulator.js";
import { compileText } from "../notebook.js";

const ground =
  "team Pier Nine\n  Ada woman\n  Olu man\nability Ada Olu\n  box jump unbroken 12 14 reps\n  box jump cycle 2.2 2 s\n  stone hold 60 90 s\n";
const event = (stages: string): string => `event E\n  handover 0 s\n${stages}`;
const stage = (name: string): string => `  stage ${name}  20 box jump while 1 hold stone\n`;
const turns = (indent: string): string =>
  `${indent}Ada 6 while Olu hold\n${indent}rest 8 s\n${indent}Ada 7 while Olu hold\n${indent}Olu 7 while Ada hold\n`;

function planOf(text: string) {
  const compiled = compileText(ground + text);
  const plan = [...compiled.documents.values()].flatMap(({ blocks }) => blocks.flatMap((block) => block.plan?.resolved.plan ?? []))[0];
  if (!plan) throw new Error("no plan");
  return { plan, abilities: compiled.kept.abilities, constants: compiled.kept.world.constants };
}

describe("a condition", () => {
  it("taken up after a rest, a second run is the second half of one run with that rest between", () => {
    const half = planOf(`${event(stage("one"))}plan P for E\n${turns("  ")}`);
    const whole = planOf(
      `${event(stage("one") + stage("two"))}plan P for E\n  stage one\n${turns("    ")}    rest 40 s\n  rest 40 s\n  stage two\n${turns("    ")}`,
    );
    const together = new Simulator(whole.plan, whole.abilities, whole.constants, null).run();
    const first = new Simulator(half.plan, half.abilities, half.constants, null);
    const endS = first.run().endS;
    const later = rested(first.condition(), new Ready(half.plan, half.abilities, half.constants), 40);
    const second = new Simulator(half.plan, half.abilities, half.constants, null).run(null, null, later);
    expect(endS + 40 + second.endS).toBeCloseTo(together.endS, 6);
    // Fresh, the second half would be another.
    expect(new Simulator(half.plan, half.abilities, half.constants, null).run().endS).not.toBeCloseTo(second.endS, 3);
  });
});
