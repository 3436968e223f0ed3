import { always, either, metEarlier, type Rule } from "../rule.js";

declare module "../../0-base/problem.js" {
  interface ProblemValues {
    "which-stage": { stages: readonly string[] };
  }
}

const ground =
  "team Pier Nine\n  Ada woman\nability  Ada\n  box jump unbroken 20 reps\n  box jump cycle 2 s\n  step unbroken 20 reps\n  step cycle 2 s\nmovement box jump\n  asks squat 40 %\nmovement step\n  asks squat 50 %, engine 50 %\nevent Sprint\n  stage jumps 5 box jump\n  stage steps 5 step\nplan Simple for Sprint\n  stage jumps\n    Ada 5\n  stage steps\n    Ada 5\n";

export const whichStage: Rule<"which-stage"> = {
  id: "which-stage",
  severity: always("error"),
  title: "A turn that belongs to no stage",
  why: "The event has several stages, and the reps must count for one of them.",
  source: "the language",
  bad: `${ground}  «Ada 5»\n`,
  good: ground,
  check: metEarlier("which-stage"),
  message: (values) => {
    const stages = values.stages;
    return stages.length === 0
      ? "The event has no stage or round yet: give it one."
      : `For which stage is this? Put it under a line such as stage ${either(stages)}.`;
  },
};
