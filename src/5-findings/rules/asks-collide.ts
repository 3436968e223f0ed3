import { problem } from "../../0-base/problem.js";
import { percent } from "../../0-base/quantity.js";
import { daysBetween } from "../../0-base/zoned.js";
import type { SessionRun, WeekRun } from "../../4-timeline/week.js";
import { pierNine } from "../examples.js";
import { moved } from "../placing.js";
import { always, type Rule } from "../rule.js";
import { asksOverlap, inOrder, weekOf } from "../week-rule.js";

declare module "../../0-base/problem.js" {
  interface ProblemValues {
    "asks-collide": { event: string; before: string; overlap: number };
  }
}

/** Of what two events ask of the body, the share that may be the same on following days; and what must be back for it not to matter. */
const most = 0.6;
const light = 0.97;
const ground = `${pierNine}movement box jump\n  asks squat 60 %, engine 40 %\nevent Steps\n  cap 30 min\n  stage 160 box jump\nplan P for Steps\n  repeat\n    Ada 4\n    rest 10 s\n    Olu 4\n    rest 10 s\nevent Stairs like Steps\nplan Q for Stairs\n  repeat\n    Ada 4\n    rest 10 s\n    Olu 4\n    rest 10 s\nweek One\n  2026-03-20 18:00  Steps plan P\n`;

export const asksCollide: Rule<"asks-collide"> = {
  id: "asks-collide",
  severity: always("warning"),
  title: "Two events on following days that ask the same of the body",
  why: "What one leaves tired is what the other needs.",
  source: "model, with a bound of 60 % (assumed)",
  bad: `${ground}  «2026-03-21 10:00  Stairs plan Q»\n`,
  good: `${ground}  2026-03-24 10:00  Stairs plan Q\n`,
  check: (judged) => {
    const week = weekOf(judged);
    if (!week) return [];
    return inOrder(week).flatMap((run, at, sessions) => {
      const before = sessions[at - 1];
      const [date, day] = [run.session.date, before?.session.date];
      if (!before || !date || !day || daysBetween(day, date) > 1 || run.session.again || !run.limit || run.limit.back >= light) return [];
      const overlap = asksOverlap(run, before);
      return overlap > most
        ? [
            problem(
              "asks-collide",
              run.session.span,
              { event: run.session.event, before: before.session.event, overlap },
              moved(week, run, judged.text, (to) => alone(week, run, to)),
            ),
          ]
        : [];
    });
  },
  message: (values) =>
    `${values.event} and ${values.before} the day before ask the same parts of the body for ${percent(values.overlap)}. Put something else, or a rest day, between them.`,
};

/** Whether no other session is within a day. */
function alone({ sessions }: WeekRun, run: SessionRun, to: string): boolean {
  return sessions.every(
    ({ session }) => session.at === run.session.at || session.date === null || Math.abs(daysBetween(session.date, to)) > 1,
  );
}
