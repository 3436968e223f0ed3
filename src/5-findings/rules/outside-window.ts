import { always, type Rule } from "../rule.js";
import { faulty } from "../week-rule.js";

declare module "../../0-base/problem.js" {
  interface ProblemValues {
    "outside-window": { when: string };
  }
}

export const outsideWindow: Rule<"outside-window"> = {
  id: "outside-window",
  severity: always("error"),
  title: "An event when the floor is closed",
  why: "Where the floor cannot be had, nothing can be tried.",
  source: "the week",
  bad: "event Sprint\n  cap 5 min\n  stage 5 jump\nweek One\n  open 2026-03-20 16:00–21:00\n  «2026-03-20 10:00  Sprint»\n",
  good: "event Sprint\n  cap 5 min\n  stage 5 jump\nweek One\n  open 2026-03-20 16:00–21:00\n  2026-03-20 17:00  Sprint\n",
  check: faulty("outside-window", "closed", (_, __, { session }) => ({ when: `${session.date ?? ""} ${session.time ?? ""}` })),
  message: (values) =>
    `The floor is not open for all of this: ${values.when} and what the event lasts lie outside the hours of the week's open lines. Move it, or add an open line.`,
};
