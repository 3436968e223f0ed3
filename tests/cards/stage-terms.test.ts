import { expect, it } from "vitest";
import { termsOf } from "../../src/7-view/stage-terms.js";
import { compileText } from "../notebook.js";

it("a card says a stage's own time, what a drop costs, that it is not scored, and the pause behind it", () => {
  const { kept } = compileText(
    "event Sprint\n  score reps\n  cap 5 min\n  drop costs 5 reps\n  stage buy-in 20 jump within 2 min unscored then rest 30 s\n  stage jump while 1 hold stone\n",
  );
  const event = kept.world.events.get("Sprint");
  expect(event?.stages.map((stage) => termsOf(stage, event))).toEqual([
    ", within 2:00, not scored, then 0:30 of rest",
    ", each drop costs 5 reps",
  ]);
});
