import { plain } from "../../0-base/quantity.js";
import { always, type Rule } from "../rule.js";
import { faulty } from "../week-rule.js";

declare module "../../0-base/problem.js" {
  interface ProblemValues {
    "too-close": { hours: number; least: number };
  }
}

export const tooClose: Rule<"too-close"> = {
  id: "too-close",
  severity: always("error"),
  title: "Less time between two events than the week allows",
  why: "You set the bound so that nobody tries an event tired from another.",
  source: "the week",
  bad: "event Sprint\n  cap 5 min\n  stage 5 jump\nweek One\n  at least 4 h between events\n  2026-03-20 10:00  Sprint\n  «2026-03-20 13:00  Sprint again»\n",
  good: "event Sprint\n  cap 5 min\n  stage 5 jump\nweek One\n  at least 4 h between events\n  2026-03-20 10:00  Sprint\n  2026-03-20 15:00  Sprint again\n",
  check: faulty("too-close", "close", ({ gapS }, { spec }) => ({ hours: gapS / 3600, least: spec.gapS / 3600 })),
  message: ({ hours, least }) => {
    const begins = hours < 0 ? "This begins before the event before it is over" : `Only ${plain(hours)} h after the event before`;
    return `${begins}${least > 0 ? `; the week wants at least ${plain(least)} h` : ""}. Move one of the two.`;
  },
};
