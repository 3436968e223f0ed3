/** The rest of a plan from a moment on: as planned it ends when the whole does; another one is found, and is no worse. */
import { describe, expect, it } from "vitest";
import { Follower } from "../../src/4-timeline/follow.js";
import { simulate } from "../../src/4-timeline/simulate.js";
import { betterRest, restFrom } from "../../src/6-search/rest.js";
import { floorAt, floorWithRest, FloorRun, type Mark } from "../../src/7-view/floor.js";
import { compile } from "../../src/compile.js";
import { lighthouse } from "../notebook.js";

/** Long sets between two pairs: much to gain from another rest. */
const rushed = `plan Rushed for Breakwater
  pair A  Ines + Bram
  pair B  Marta + Tariq
  stage squats
    repeat
      A 18 each  while Tariq hold
      B 15 each  while Bram hold
  stage logs
    repeat
      A 4
      B 4
  stage rows
    repeat
      A 6 each   while Tariq hold
      B 6 each   while Bram hold
`;

const { documents, kept } = compile([...lighthouse, { path: "rushed.rota", text: rushed }]);
const {
  abilities,
  world: { constants },
} = kept;

function planNamed(name: string) {
  const found = [...documents.values()]
    .flatMap(({ blocks }) => blocks.flatMap(({ plan }) => plan ?? []))
    .find(({ resolved }) => resolved.line.name.text === name)?.resolved.plan;
  if (!found) throw new Error(name);
  return found;
}

const moments = [
  ["Steady", 20],
  ["Steady", 130],
  ["Steady", 300],
  ["Steady", 620],
  ["Rushed", 100],
  ["Rushed", 400],
  ["Bold", 400],
  ["Bold", 404],
  ["Split", 60],
  ["Split", 300],
  ["Simple", 30],
] as const;

describe("the rest as planned", () => {
  it.each(moments)("of %s from %i s ends when the whole plan does, to 0.05 s and the rep", (name, nowS) => {
    const follower = new Follower(planNamed(name), abilities, constants);
    const rest = restFrom(follower, nowS);
    expect(rest).not.toBeNull();
    if (!rest) return;
    const alone = simulate(rest.plan, abilities, constants, { from: rest.start.condition });
    const whole = follower.timeline;
    expect(alone.endS + rest.atS).toBeCloseTo(whole.endS, 1);
    const before = whole.turns
      .filter(({ startS }) => startS < rest.atS - 1e-6)
      .flatMap(({ athletes }) => athletes)
      .reduce((sum, { reps }) => sum + reps, 0);
    const all = whole.athletes.reduce((sum, { reps }) => sum + reps, 0);
    expect(before + alone.athletes.reduce((sum, { reps }) => sum + reps, 0)).toBe(all);
  });

  it("is none near the end, and none in a window", () => {
    expect(restFrom(new Follower(planNamed("Steady"), abilities, constants), 795)).toBeNull();
    expect(restFrom(new Follower(planNamed("Ladder"), abilities, constants), 60)).toBeNull();
  });
});

describe("another plan for the rest", () => {
  it("is better on drawn days than going on as planned, and sound; taken, the floor is told of it, what is done stays", () => {
    const run = new FloorRun(planNamed("Rushed"), abilities, constants);
    const marks: readonly Mark[] = [{ kind: "change", atS: 62 }];
    const floor = run.after(marks);
    const rest = restFrom(run.follower, 70);
    if (!rest) throw new Error("no rest");
    const search = betterRest(rest, abilities, constants);
    let last = search.next().value;
    for (let step = 0; step < 40; step += 1) last = search.next().value ?? last;
    if (!last) throw new Error("nothing found");
    const { planned, best } = last;
    expect(best.worth.sound).toBe(true);
    expect(best.worth.middle).toBeLessThan(planned.worth.middle - 3);
    const taken = floorWithRest(floor, rest, best.draft, abilities, constants);
    expect(taken.steps.filter(({ startS }) => startS < rest.atS)).toEqual(floor.steps.filter(({ startS }) => startS < rest.atS));
    expect(taken.steps.map(({ startS }) => startS)).toEqual(taken.steps.map(({ startS }) => startS).sort((a, b) => a - b));
    // Every stage comes to its target, no more.
    for (const stage of ["squats", "logs", "rows"])
      expect(taken.steps.findLast((step) => step.stage === stage)?.until).toBe(floor.steps.findLast((step) => step.stage === stage)?.until);
    expect(floorAt(taken, marks, rest.atS + 1).now.length).toBeGreaterThan(0);
    expect(taken.endS).toBeCloseTo(rest.atS + best.worth.score, 1);
  });
});
