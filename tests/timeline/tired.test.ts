/** Worked examples with fatigue: each asserts the equation that the model states, solved apart from the simulator. */
import { describe, expect, it } from "vitest";
import { constantsWith } from "../../src/3-plan/assumptions.js";
import { holdOf } from "../../src/4-timeline/models/hold.js";
import { reserveOf } from "../../src/4-timeline/models/reserve.js";
import { compileText, findingsOf, timelineOf } from "../notebook.js";

const constants = constantsWith(new Map());

const ground = `team Pier Nine
  Ada woman
  Olu man
ability  Ada  Olu
  box jump  unbroken  5  1000  reps
  box jump  cycle  2  2  s
  box jump  fade  0  0  %
  stone  hold  600  60  s
assume set-up 0 s
`;

const tauF = 31;
const tauS = 300;

/** One rep of 2 s from pools F and S: dF/dt = 0.6/2 − F/31, dS/dt = 0.4/2 − S/300. */
function rep([fast, slow]: readonly [number, number]): readonly [number, number] {
  const [toF, toS] = [(0.6 / 2) * tauF, (0.4 / 2) * tauS];
  return [toF + (fast - toF) * Math.exp(-2 / tauF), toS + (slow - toS) * Math.exp(-2 / tauS)];
}

describe("a miss in the middle of a set", () => {
  const timeline = timelineOf(compileText(`${ground}event Sprint\n  stage 6 box jump\nplan Simple for Sprint\n  Ada 6\n`));

  it("comes after the five reps that she can do: at 5 · 2 = 10 s", () => {
    expect(timeline.turns[0]?.misses).toEqual([{ athlete: "Ada", atS: expect.closeTo(10, 9), after: 5, of: 6 }]);
  });

  it("costs its cycle and 3 s, then she waits until one rep is possible again, and does it", () => {
    let pools: readonly [number, number] = [0, 0];
    for (let done = 0; done < 5; done += 1) pools = rep(pools);
    const capacity = pools[0] + pools[1];
    expect(reserveOf({ cycleS: 2, fade: 0, unbroken: 5, recovery: 1 }, constants).capacity).toBeCloseTo(capacity, 8);
    const [fast, slow] = pools;
    // The wait w solves: after resting w and one more rep, exactly the capacity is spent.
    const w = timeline.endS - 10 - (2 + 3) - 2;
    const after = rep([fast * Math.exp(-w / tauF), slow * Math.exp(-w / tauS)]);
    expect(w).toBeGreaterThan(0);
    expect(after[0] + after[1]).toBeCloseTo(capacity, 4);
  });

  it("is a finding: six in one set, and her best is five", () => {
    const found = findingsOf(compileText(`${ground}event Sprint\n  stage 6 box jump\nplan Simple for Sprint\n  Ada 6\n`)).filter(
      ({ rule }) => rule !== "idle-athlete",
    );
    expect(found.map(({ rule, severity, message }) => [rule, severity, message])).toEqual([
      ["set-too-long", "error", "6 reps in one set, but Ada's best unbroken set is 5. Split it."],
    ]);
  });
});

describe("after a miss", () => {
  it("the small regroup: somebody whose best is two or three is not left waiting for three", () => {
    for (const best of [2, 3]) {
      const timeline = timelineOf(
        compileText(
          `${ground.replace("unbroken  5", `unbroken  ${best}`)}event Sprint\n  cap 30 min\n  stage 8 box jump\nplan P for Sprint\n  Ada 8\n`,
        ),
      );
      expect(timeline.score.finished, `best ${best}`).toBe(true);
    }
  });

  it("a hold that drops does not cut the wait short: she does not try again at once", () => {
    const text = `${ground.replace("unbroken  5", "unbroken  7").replace("cycle  2  2", "cycle  2.5  2").replace("600  60", "600  80")}event Sprint\n  stage 15 box jump while 1 hold stone\nplan P for Sprint\n  repeat\n    Ada 7 while Olu hold\n`;
    const timeline = timelineOf(compileText(text));
    expect(timeline.score.finished).toBe(true);
    expect(timeline.endS).toBeLessThan(600);
  });
});

describe("a hold that fails in the middle of a turn", () => {
  const text = `${ground}event Sprint\n  stage 40 box jump while 1 hold stone\nplan Simple for Sprint\n  Olu 1 while Ada hold\n  Ada 1 while Olu hold\n  rest 1800 s\n  Olu 38 while Ada hold\n`;
  const dropping = `${ground.replace("unbroken  5", "unbroken  1000")}event Sprint\n  stage 40 box jump while 1 hold stone\nplan Simple for Sprint\n  Ada 40 while Olu hold\n`;
  const timeline = timelineOf(compileText(dropping));

  it("drops at the tested 60 s, when 60 / 2 = 30 reps are done", () => {
    expect(timeline.turns[0]?.drops[0]).toEqual({ athlete: "Olu", atS: expect.closeTo(60, 6) });
    const firstWork = timeline.segments.find(({ athlete, activity }) => athlete === "Ada" && activity === "work");
    expect([firstWork?.endS, firstWork?.reps]).toEqual([expect.closeTo(60, 6), 30]);
  });

  it("is taken up when 10 s of hold are possible again, and the rest of the work is done then", () => {
    const { load, fatigue, recovery, resting } = holdOf(60, constants);
    const settled = (fatigue * load) / recovery;
    // Tired fraction from which 10 s of holding just end at the limit 1 − TL.
    const allowed = settled - (settled - (1 - load)) * Math.exp(recovery * 10);
    const pause = Math.log((1 - load) / allowed) / resting;
    const resumed = timeline.segments.filter(({ athlete, activity }) => athlete === "Ada" && activity === "work")[1];
    expect(resumed?.startS).toBeCloseTo(60 + pause, 6);
    expect(resumed?.reps).toBe(5);
  });

  it("does not drop with a rest that is long enough, nor for a stronger holder", () => {
    expect(findingsOf(compileText(text)).map(({ rule }) => rule)).not.toContain("hold-drops");
  });
});

describe("rest forms that look at the reserve", () => {
  const event = "event Sprint\n  handover 0 s\n  stage 8 box jump\nplan Simple for Sprint\n";

  it("`Ada rest until 60 %` waits until 1 − X/K is 0.6", () => {
    const timeline = timelineOf(compileText(`${ground}${event}  Ada 4\n  Ada rest until 60 %\n  Ada 4\n`));
    let pools: readonly [number, number] = [0, 0];
    for (let done = 0; done < 5; done += 1) pools = rep(pools);
    const capacity = pools[0] + pools[1];
    pools = [0, 0];
    for (let done = 0; done < 4; done += 1) pools = rep(pools);
    const w = (timeline.turns[1]?.startS ?? 0) - 8;
    const spent = pools[0] * Math.exp(-w / tauF) + pools[1] * Math.exp(-w / tauS);
    expect(1 - spent / capacity).toBeCloseTo(0.6, 5);
  });

  it("`rest until ready` before a best set, for which nobody is ever wholly ready, waits until 99 % is back", () => {
    const timeline = timelineOf(compileText(`${ground}${event}  Ada 3\n  rest until ready\n  Ada 5\n`));
    let pools: readonly [number, number] = [0, 0];
    for (let done = 0; done < 3; done += 1) pools = rep(pools);
    const w = (timeline.turns[1]?.startS ?? 0) - 6;
    const { capacity } = reserveOf({ cycleS: 2, fade: 0, unbroken: 5, recovery: 1 }, constants);
    expect((pools[0] * Math.exp(-w / tauF) + pools[1] * Math.exp(-w / tauS)) / capacity).toBeCloseTo(0.01, 5);
  });

  it("`rest until ready` waits until the whole next set is possible and leaves the margin, and not longer", () => {
    const timeline = timelineOf(compileText(`${ground}${event}  Ada 4\n  rest until ready\n  Ada 4\n`));
    expect(timeline.turns[1]?.misses).toEqual([]);
    expect(timeline.turns[1]?.athletes[0]?.left).toBeCloseTo(0.05, 4);
    const without = timelineOf(compileText(`${ground}${event}  Ada 4\n  rest until ready\n  Ada 4\nassume ready margin 0 %\n`));
    expect(without.turns[1]?.athletes[0]?.left).toBeCloseTo(0, 4);
  });
});
