/** Carry-over, by hand: what one piece of work costs another is κ × overlap × the fraction spent, taken when it ends. */
import { describe, expect, it } from "vitest";
import { constantsWith } from "../../src/3-plan/assumptions.js";
import { enduranceOf, holdOf } from "../../src/4-timeline/models/hold.js";
import { reserveOf } from "../../src/4-timeline/models/reserve.js";
import { compileText, timelineOf } from "../notebook.js";

const constants = constantsWith(new Map());
const [tauF, tauS] = [31, 300];

const ground = (asks: string): string => `team Pier Nine
  Ada woman
  Olu man
${asks}ability  Ada  Olu
  row  unbroken  10  100  reps
  row  cycle  2  2  s
  row  fade  0  0  %
  press  unbroken  10  100  reps
  press  cycle  2  2  s
  press  fade  0  0  %
  stone  hold  60  60  s
`;
const both =
  "movement row\n  asks pull 70 %, grip 30 %\nmovement press\n  asks pull 20 %, grip 80 %\nhold stone\n  asks grip 50 %, trunk 50 %\n";

/** K of someone who does ten reps of 2 s without a pause, from the two linear equations. */
function capacity(): number {
  let [fast, slow] = [0, 0];
  for (let rep = 0; rep < 10; rep += 1) {
    fast = 0.3 * tauF + (fast - 0.3 * tauF) * Math.exp(-2 / tauF);
    slow = 0.2 * tauS + (slow - 0.2 * tauS) * Math.exp(-2 / tauS);
  }
  return fast + slow;
}

describe("carry-over between movements", () => {
  const event =
    "event Two\n  handover 0 s\n  stage one 5 row\n  stage two 1 press\nplan P for Two\n  stage one\n    Ada 5\n  stage two\n    Ada 1\n";

  it("5 of 10 reps of one cost the other 0.5 · (0.2 + 0.3) · 5/10 = 12.5 % of its reserve", () => {
    const K = capacity();
    expect(reserveOf({ cycleS: 2, fade: 0, unbroken: 10, recovery: 1 }, constants).capacity).toBeCloseTo(K, 8);
    const taken = 0.5 * (0.2 + 0.3) * (5 / 10) * K;
    // Then one press of 2 s, begun at once: each pool nears its goal.
    const fast = 0.3 * tauF + (0.6 * taken - 0.3 * tauF) * Math.exp(-2 / tauF);
    const slow = 0.2 * tauS + (0.4 * taken - 0.2 * tauS) * Math.exp(-2 / tauS);
    const press = timelineOf(compileText(ground(both) + event)).turns[1];
    expect(press?.athletes[0]?.left).toBeCloseTo(1 - (fast + slow) / K, 9);
  });

  it("without `asks` the two do not touch each other", () => {
    const fresh = timelineOf(compileText(ground("") + event)).turns[1]?.athletes[0]?.left ?? 0;
    const one = timelineOf(compileText(`${ground(both)}event One\n  stage 1 press\nplan P for One\n  Ada 1\n`)).turns[0]?.athletes[0]?.left;
    expect(fresh).toBe(one);
  });

  it("`assume carry-over 0 %` switches it off", () => {
    const off = timelineOf(compileText(`assume carry-over 0 %\n${ground(both)}${event}`)).turns[1]?.athletes[0]?.left;
    const none = timelineOf(compileText(ground("") + event)).turns[1]?.athletes[0]?.left;
    expect(off).toBe(none);
  });
});

describe("carry-over between movement and hold", () => {
  it("20 s on a hold of 60 s cost the press 0.5 · 0.5 · 20/60 = 8.33 % of its reserve", () => {
    const text = `${ground(both)}event Two\n  handover 0 s\n  stage one 10 row while 1 hold stone\n  stage two 1 press\nplan P for Two\n  stage one\n    Olu 10 while Ada hold\n  stage two\n    Ada 1\n`;
    const K = capacity();
    const taken = 0.5 * 0.5 * (20 / 60) * K;
    const fast = 0.3 * tauF + (0.6 * taken - 0.3 * tauF) * Math.exp(-2 / tauF);
    const slow = 0.2 * tauS + (0.4 * taken - 0.2 * tauS) * Math.exp(-2 / tauS);
    expect(timelineOf(compileText(text)).turns[1]?.athletes[0]?.left).toBeCloseTo(1 - (fast + slow) / K, 6);
  });

  it("10 of 10 rows cost the hold 0.5 · 0.3 = 15 % of what it can bear, so it fails sooner", () => {
    const text = `${ground(both)}event Two\n  handover 0 s\n  stage one 10 row\n  stage two 60 row while 1 hold stone\nplan P for Two\n  stage one\n    Ada 10\n  stage two\n    Olu 60 while Ada hold\n`;
    const hold = holdOf(60, constants);
    expect(enduranceOf(hold)).toBeCloseTo(60, 9);
    const [limit, settled] = [1 - hold.load, (hold.fatigue * hold.load) / hold.recovery];
    const lasts = -Math.log((settled - limit) / (settled - 0.15 * limit)) / hold.recovery;
    const drop = timelineOf(compileText(text)).turns[1]?.drops[0];
    expect((drop?.atS ?? 0) - 20).toBeCloseTo(lasts, 6);
  });
});
