import { always, type Rule } from "../rule.js";
import { faulty } from "../week-rule.js";

declare module "../../0-base/problem.js" {
  interface ProblemValues {
    "second-try-first": { event: string };
  }
}

const ground = "event Sprint\n  cap 5 min\n  stage 5 jump\nweek One\n";

export const secondTryFirst: Rule<"second-try-first"> = {
  id: "second-try-first",
  severity: always("error"),
  title: "A second try before the first",
  why: "What the first teaches is what a second is for.",
  source: "the calendar",
  bad: `${ground}  2026-03-22 10:00  Sprint\n  «2026-03-20 10:00  Sprint again»\n`,
  good: `${ground}  2026-03-20 10:00  Sprint\n  2026-03-22 10:00  Sprint again\n`,
  check: faulty("second-try-first", "out of turn", (_, __, { session }) => ({ event: session.event })),
  message: (values) => `This second try of ${values.event} stands before the first. Move it behind.`,
};
