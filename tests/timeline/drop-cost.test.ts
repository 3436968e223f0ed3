import { expect, it } from "vitest";
import { compileText, findingsOf, timelineOf } from "../notebook.js";

/** Eve drops the stone once, 20 s into the first turn; what the event takes for it is all that differs. */
const plan = (score: string, cost: string) =>
  compileText(`team Pier Nine
  Ada woman
  Eve woman
  Olu man
ability  Ada  Eve  Olu
  box jump  unbroken  1000  1000  1000  reps
  box jump  cycle  2  2  2  s
  stone  hold  600  20  600  s
event Sprint
  score ${score}
  cap 10 min
  handover 3 s
  stage 40 box jump while 1 hold stone
${cost === "" ? "" : `  drop costs ${cost}\n`}plan Simple for Sprint
  Ada 12 while Eve hold
  repeat
    Ada 4 while Olu hold
    Eve 4 while Olu hold
`);

it("seconds are lost in the lane that dropped", () => {
  const [free, charged] = [timelineOf(plan("time", "")), timelineOf(plan("time", "10 s"))];
  expect(free.turns[0]?.drops.length).toBe(1);
  expect(charged.turns[0]?.endS).toBeCloseTo(free.turns[0]?.endS ?? 0, 6);
  expect(charged.turns[1]?.startS).toBeCloseTo((free.turns[1]?.startS ?? 0) + 10, 6);
  expect(charged.score.value).toBeCloseTo(free.score.value + 10, 1);
});

it("reps are to be done again where the work is fixed", () => {
  const [free, charged] = [timelineOf(plan("time", "")), timelineOf(plan("time", "5 reps"))];
  const done = ({ turns }: typeof free): number => turns.flatMap(({ athletes }) => athletes).reduce((sum, { reps }) => sum + reps, 0);
  expect([done(free), done(charged)]).toEqual([40, 45]);
  expect(charged.stages[0]?.reps).toBe(40);
});

it("reps are taken from the score, and the finding says so", () => {
  const [free, charged] = [timelineOf(plan("reps", "")), timelineOf(plan("reps", "5 reps"))];
  expect(charged.score.finished).toBe(free.score.finished);
  expect(charged.stages[0]?.reps).toBe(40);
  const drop = findingsOf(plan("reps", "5 reps")).find(({ rule }) => rule === "hold-drops");
  expect(drop?.message).toContain("By the event's rules each costs 5 reps.");
});

it("in lanes too: the lanes go on until the reps that were taken are done again", () => {
  const sides = (cost: string) =>
    compileText(`team Pier Nine
  Ada woman
  Eve woman
  Ben man
  Cal man
  Dan man
ability  Ada  Eve  Ben  Cal  Dan
  box jump  unbroken  1000  1000  1000  1000  1000  reps
  box jump  cycle  2  2  2  2  2  s
  stone  hold  600  600  20  600  3600  s
event Sprint
  cap 10 min
  handover 0 s
  stage 150 box jump while 1 hold stone
${cost}plan Simple for Sprint
  lane x
    Ada 15 while Ben hold
    repeat
      Ada 10 while Eve hold
  lane y
    repeat
      Cal 5 while Dan hold
`);
  const [free, charged] = [timelineOf(sides("")), timelineOf(sides("  drop costs 5 reps\n"))];
  const done = ({ turns }: typeof free): number => turns.flatMap(({ athletes }) => athletes).reduce((sum, { reps }) => sum + reps, 0);
  expect([free.score.finished, charged.score.finished]).toEqual([true, true]);
  const drops = charged.turns.reduce((sum, turn) => sum + turn.drops.length, 0);
  expect(drops).toBeGreaterThan(0);
  expect([done(free), done(charged)]).toEqual([150, 150 + 5 * drops]);
  expect(charged.stages[0]?.reps).toBe(150);
});

it("seconds that go past the cap are no finish", () => {
  const late = timelineOf(plan("time", "10 min"));
  expect(late.score.finished).toBe(false);
});
