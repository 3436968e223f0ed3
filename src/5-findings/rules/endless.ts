import { problem } from "../../0-base/problem.js";
import { horizonS, mostSteps, mostTroubles } from "../../4-timeline/bounds.js";
import { pierNine } from "../examples.js";
import { simulatedPlan } from "../nodes.js";
import { always, type Rule } from "../rule.js";

declare module "../../0-base/problem.js" {
  interface ProblemValues {
    endless: { beyond: boolean };
  }
}

export const endless: Rule<"endless"> = {
  id: "endless",
  severity: always("error"),
  title: "A plan that never ends",
  why: "With neither a target nor a cap nothing stops the repeat.",
  source: "the timeline",
  bad: `${pierNine}event Drill\n  score reps\n  stage box jump\n«plan Simple for Drill»\n  repeat\n    Ada 1\n    Ada 1\n`,
  good: `${pierNine}event Drill\n  score reps\n  cap 2 min\n  stage box jump\nplan Simple for Drill\n  repeat\n    Ada 1\n    Olu 1\n    rest 20 s\n`,
  check: (judged) => {
    const simulated = simulatedPlan(judged);
    if (!simulated) return [];
    const { timeline } = simulated;
    const open = timeline.capS === null && timeline.endS >= horizonS;
    const beyond = timeline.stopped === "endless";
    return beyond || open ? [problem("endless", judged.line.span, { beyond })] : [];
  },
  message: ({ beyond }) =>
    beyond
      ? `This plan has more than ${mostSteps.toLocaleString("en")} turns and rests, or more than ${mostTroubles.toLocaleString("en")} misses, and is run no further. Give the event a shorter cap, the stage a target, or the repeat a number.`
      : "This plan goes on for ever. Give the event a cap, the stage a target, or the repeat a number.",
};
