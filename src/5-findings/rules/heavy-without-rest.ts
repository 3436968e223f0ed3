import { problem } from "../../0-base/problem.js";
import { addDays } from "../../0-base/zoned.js";
import { kelpStreet } from "../examples.js";
import { moved } from "../placing.js";
import { always, type Rule } from "../rule.js";
import { heaviestOf, inOrder, weekOf } from "../week-rule.js";

declare module "../../0-base/problem.js" {
  interface ProblemValues {
    "heavy-without-rest": { event: string; before: string };
  }
}

const ground = `${kelpStreet}hold stone\n  asks grip 50 %, trunk 50 %\nevent Sprint\n  cap 5 min\n  stage 20 box jump\nplan Quick for Sprint\n  Ines 5\n  Marta 5\n  Bram 5\n  Tariq 5\nevent Quarry\n  score reps\n  cap 8 min\n  stage box jump while 1 hold stone\nplan P for Quarry\n  repeat\n    Ines 10 while Marta hold\n    Marta 10 while Bram hold\n    Bram 10 while Tariq hold\n    Tariq 10 while Ines hold\nweek One\n  2026-03-20 10:00  Sprint plan Quick\n`;

export const heavyWithoutRest: Rule<"heavy-without-rest"> = {
  id: "heavy-without-rest",
  severity: always("warning"),
  title: "The heaviest holds and pulls on the day after another event",
  why: "Grip, hinge and trunk come back slowly, and a tired back is where people get hurt.",
  source: "common practice, no source",
  bad: `${ground}  «2026-03-21 10:00  Quarry plan P»\n`,
  good: `${ground}  2026-03-22 10:00  Quarry plan P\n`,
  check: (judged) => {
    const week = weekOf(judged);
    if (!week) return [];
    const sessions = inOrder(week);
    const heaviest = heaviestOf(sessions);
    const date = heaviest?.session.date;
    if (!heaviest || !date) return [];
    const before = sessions.find(({ session }) => session.date === addDays(date, -1));
    return before
      ? [
          problem(
            "heavy-without-rest",
            heaviest.session.span,
            { event: heaviest.session.event, before: before.session.event },
            moved(
              week,
              heaviest,
              judged.text,
              (to) =>
                !sessions.some((other) => other !== heaviest && (other.session.date === addDays(to, -1) || other.session.date === to)),
            ),
          ),
        ]
      : [];
  },
  message: (values) =>
    `${values.event} asks most of grip, hinge and trunk, and ${values.before} is the day before. Put a rest day between.`,
};
