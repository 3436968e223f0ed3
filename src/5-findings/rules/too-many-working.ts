import { problem } from "../../0-base/problem.js";
import { clock } from "../../0-base/quantity.js";
import { workingIn } from "../../3-plan/plan.js";
import { kelpStreet } from "../examples.js";
import { simulatedPlan } from "../nodes.js";
import { always, type Rule } from "../rule.js";

declare module "../../0-base/problem.js" {
  interface ProblemValues {
    "too-many-working": { atS: number; who: readonly string[]; most: number };
  }
}

export const tooManyWorking: Rule<"too-many-working"> = {
  id: "too-many-working",
  severity: always("error"),
  title: "More at work than the event allows",
  why: "Reps while too many move do not count.",
  source: "the event",
  bad: `${kelpStreet}event Sprint\n  working at most 2\n  stage 20 box jump\nplan P for Sprint\n  lane one\n    Ines + Bram 5 each\n  lane two\n    «Marta + Tariq 5 each»\n`,
  good: `${kelpStreet}event Sprint\n  working at most 2\n  stage 20 box jump\nplan P for Sprint\n  Ines + Bram 5 each\n  Marta + Tariq 5 each\n`,
  check: (judged) => {
    const simulated = simulatedPlan(judged);
    const working = simulated && workingIn(simulated.plan.event);
    if (!simulated || !working) return [];
    const most = working.pairs ? 2 * working.most : working.most;
    const work = simulated.timeline.segments
      .filter(({ activity }) => activity === "work")
      .sort((a, b) => a.startS - b.startS || (a.step ?? 0) - (b.step ?? 0));
    for (const segment of work) {
      const together = work.filter(({ startS, endS }) => startS <= segment.startS && endS > segment.startS + 1e-6);
      const who = [...new Set(together.map(({ athlete }) => athlete))];
      if (who.length <= most) continue;
      const step = Math.max(...together.map(({ step: of }) => of ?? 0));
      return [problem("too-many-working", simulated.spanOf(step), { atS: segment.startS, who, most })];
    }
    return [];
  },
  message: (values) =>
    `At ${clock(values.atS)} ${values.who.length} move (${values.who.join(", ")}); the event allows ${values.most}. Let them follow one another.`,
};
