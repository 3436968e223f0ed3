import { problem } from "../../0-base/problem.js";
import { moved } from "../placing.js";
import { always, type Rule } from "../rule.js";
import { weekOf } from "../week-rule.js";

declare module "../../0-base/problem.js" {
  interface ProblemValues {
    "on-rest-day": { date: string };
  }
}

const ground = "event Sprint\n  cap 5 min\n  stage 5 jump\nweek One\n  2026-03-20 rest\n";

export const onRestDay: Rule<"on-rest-day"> = {
  id: "on-rest-day",
  severity: always("warning"),
  title: "An event on a day of rest",
  why: "A rest day restores what the next event needs only if it is one.",
  source: "the week",
  bad: `${ground}  «2026-03-20 10:00  Sprint»\n`,
  good: `${ground}  2026-03-21 10:00  Sprint\n`,
  check: (judged) => {
    const week = weekOf(judged);
    if (!week) return [];
    const { spec, sessions } = week;
    return sessions
      .filter(({ session }) => spec.rests.some(({ date }) => date === session.date))
      .map((run) =>
        problem(
          "on-rest-day",
          run.session.span,
          { date: run.session.date ?? "" },
          moved(week, run, judged.text, (to) => !spec.rests.some(({ date }) => date === to)),
        ),
      );
  },
  message: (values) => `${values.date} is a rest day in this week, and has an event. Move the event, or take the rest line out.`,
};
