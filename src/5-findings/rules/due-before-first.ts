import { problem } from "../../0-base/problem.js";
import { always, type Rule } from "../rule.js";
import { firstAfterDue, weekOf } from "../week-rule.js";

declare module "../../0-base/problem.js" {
  interface ProblemValues {
    "due-before-first": { first: string };
  }
}

const ground = "event Sprint\n  cap 5 min\n  stage 5 jump\nweek One\n";

export const dueBeforeFirst: Rule<"due-before-first"> = {
  id: "due-before-first",
  severity: always("error"),
  title: "Scores due before the first event",
  why: "Either the due time or the days are of another week.",
  source: "the calendar",
  bad: `${ground}  «due 2026-03-19 17:00»\n  2026-03-20 10:00  Sprint\n`,
  good: `${ground}  due 2026-03-21 17:00\n  2026-03-20 10:00  Sprint\n`,
  check: (judged) => {
    const first = firstAfterDue(judged);
    const due = weekOf(judged)?.spec.due;
    return first && due ? [problem("due-before-first", due.span, { first: `${first.weekday} ${first.date}` })] : [];
  },
  message: (values) => `The scores are due before the first event, ${values.first}. Look at day, month and year of both.`,
};
