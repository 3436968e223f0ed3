import { problem } from "../../0-base/problem.js";
import { turnsOf } from "../../3-plan/plan.js";
import { kelpStreet } from "../examples.js";
import { simulatedPlan } from "../nodes.js";
import { always, type Rule } from "../rule.js";

declare module "../../0-base/problem.js" {
  interface ProblemValues {
    "idle-athlete": { athlete: string; plan: string };
  }
}

export const idleAthlete: Rule<"idle-athlete"> = {
  id: "idle-athlete",
  severity: always("warning"),
  title: "Somebody who does nothing",
  why: "A fresh pair of hands on the floor is time left lying there.",
  source: "common practice",
  bad: `${kelpStreet}event Sprint\n  stage 30 box jump\n«plan P for Sprint»\n  Ines 10\n  Marta 10\n  Bram 10\n`,
  good: `${kelpStreet}event Sprint\n  stage 30 box jump while 1 hold stone\nplan P for Sprint\n  Ines 10 while Tariq hold\n  Marta 10 while Tariq hold\n  Bram 10 while Tariq hold\n`,
  check: (judged) => {
    const simulated = simulatedPlan(judged);
    if (!simulated || simulated.timeline.turns.length === 0) return [];
    const turns = turnsOf(simulated.plan.steps);
    return (
      simulated.timeline.athletes
        // A turn that never comes is told at its line.
        .filter(
          ({ name, work, hold }) => work + hold === 0 && !turns.some(({ who, holders }) => who.includes(name) || holders.includes(name)),
        )
        .map(({ name }) => problem("idle-athlete", judged.line.span, { athlete: name, plan: simulated.plan.name }))
    );
  },
  message: (values) => `${values.athlete} neither works nor holds in ${values.plan}. Give ${values.athlete} a turn or a hold.`,
};
