import { problem } from "../../0-base/problem.js";
import { pierNine } from "../examples.js";
import { simulatedPlan } from "../nodes.js";
import { always, type Rule } from "../rule.js";

declare module "../../0-base/problem.js" {
  interface ProblemValues {
    endless: {};
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
    const open = timeline.capS === null && timeline.endS >= 43_200;
    return timeline.stopped === "endless" || open ? [problem("endless", judged.line.span, {})] : [];
  },
  message: () => "This plan goes on for ever. Give the event a cap, the stage a target, or the repeat a number.",
};
