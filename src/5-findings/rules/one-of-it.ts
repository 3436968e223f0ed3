import { problem } from "../../0-base/problem.js";
import { clock } from "../../0-base/quantity.js";
import { takes } from "../../3-plan/event.js";
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
  title: "Equipment that there is one of, in two lanes at once",
  why: "Only one of the two can have it: the other waits, which the plan does not say.",
  source: "the event",
  bad: `${pierNine}event Sprint\n  one box for box jump\n  stage 20 box jump\nplan P for Sprint\n  lane one\n    Ada 10\n  lane two\n    «Olu 10»\n`,
  good: `${pierNine}event Sprint\n  one box for box jump\n  stage 20 box jump\nplan P for Sprint\n  Ada 10\n  Olu 10\n`,
  check: (judged) => {
    const simulated = simulatedPlan(judged);
    if (!simulated) return [];
    const work = simulated.timeline.segments.filter(({ activity }) => activity === "work").toSorted((a, b) => a.startS - b.startS);
    return simulated.plan.event.equipment.flatMap((equipment) => {
      const users = work.filter(({ subject }) => takes(equipment, subject ?? ""));
      for (const [at, user] of users.entries()) {
        const other = users.slice(0, at).find(({ step, endS }) => step !== user.step && endS > user.startS + 1e-6);
        if (other)
          return [
            problem("one-of-it", simulated.spanOf(user.step ?? 0), {
              equipment: equipment.name,
              who: [other.athlete, user.athlete],
              atS: user.startS,
            }),
          ];
      }
      return [];
    });
  },
  message: ({ equipment, who, atS }) =>
    `At ${clock(atS)} ${either(who, "and")} need the ${equipment} at once, and there is one. Let them follow one another.`,
};
