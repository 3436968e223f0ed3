import { problem } from "../../0-base/problem.js";
import { clock } from "../../0-base/quantity.js";
import { atOneThing } from "../crowding.js";
import { pierNine } from "../examples.js";
import { simulatedPlan } from "../nodes.js";
import { always, either, type Rule } from "../rule.js";

declare module "../../0-base/problem.js" {
  interface ProblemValues {
    "one-of-it": { equipment: string; who: readonly string[]; atS: number };
  }
}

export const oneOfIt: Rule<"one-of-it"> = {
  id: "one-of-it",
  severity: always("error"),
  title: "Equipment that there is one of, needed by two at once",
  why: "Only one of the two can have it: the other waits, which the plan does not say.",
  source: "the event",
  bad: `${pierNine}event Sprint\n  one box for box jump\n  stage 20 box jump\nplan P for Sprint\n  lane one\n    Ada 10\n  lane two\n    «Olu 10»\n`,
  good: `${pierNine}event Sprint\n  one box for box jump\n  stage 20 box jump\nplan P for Sprint\n  Ada 10\n  Olu 10\n`,
  check: (judged) => {
    const simulated = simulatedPlan(judged);
    if (!simulated) return [];
    const { plan, timeline, spanOf } = simulated;
    return atOneThing(plan, timeline.segments).map(({ step, ...crowd }) => problem("one-of-it", spanOf(step), crowd));
  },
  message: ({ equipment, who, atS }) =>
    `At ${clock(atS)} ${either(who, "and")} need the ${equipment} at once, and there is one. Let them follow one another.`,
};
