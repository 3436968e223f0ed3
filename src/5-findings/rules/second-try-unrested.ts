import { problem } from "../../0-base/problem.js";
import { percent } from "../../0-base/quantity.js";
import type { Evaluation } from "../../4-timeline/evaluate.js";
import { leftAt, limitOf, type SessionRun, type WeekRun } from "../../4-timeline/week.js";
import { pierNine } from "../examples.js";
import { moved } from "../placing.js";
import { always, type Rule } from "../rule.js";
import { inOrder, weekOf } from "../week-rule.js";

declare module "../../0-base/problem.js" {
  interface ProblemValues {
    "second-try-unrested": { athlete: string; part: string; back: number };
  }
}

const enough = 0.95;
const ground = `${pierNine}movement box jump\n  asks squat 60 %, engine 40 %\nevent Sprint\n  cap 30 min\n  stage 160 box jump\nplan P for Sprint\n  repeat\n    Ada 4\n    rest 10 s\n    Olu 4\n    rest 10 s\nweek One\n  2026-03-20 10:00  Sprint plan P\n`;

export const secondTryUnrested: Rule<"second-try-unrested"> = {
  id: "second-try-unrested",
  severity: always("warning"),
  title: "A second try before the first is slept off",
  why: "A second try pays only if what limited the first is back.",
  source: "model: the part that limits it is predicted below 95 % (assumed)",
  bad: `${ground}  «2026-03-20 18:00  Sprint again»\n`,
  good: `${ground}  2026-03-24 10:00  Sprint again\n`,
  check: (judged) => {
    const week = weekOf(judged);
    if (!week) return [];
    return inOrder(week).flatMap((run) => {
      const { session, limit } = run;
      if (!session.again || !limit || limit.back >= enough) return [];
      return [
        problem(
          "second-try-unrested",
          session.span,
          { athlete: limit.athlete, part: limit.part, back: limit.back },
          moved(week, run, judged.text, (_, startS) => rested(run, startS, week, judged.evaluation)),
        ),
      ];
    });
  },
  message: (values) =>
    `${values.athlete}'s ${values.part} is back to ${percent(values.back)} by then, and this hangs on it. Leave a day or two more, or leave the second try.`,
};

/** Whether the part that limits a session is back by an hour. */
function rested(run: SessionRun, startS: number, { sessions }: WeekRun, { world }: Evaluation): boolean {
  const limit = limitOf(
    run.leaves,
    leftAt(
      startS,
      sessions.filter((other) => other !== run),
      world.constants,
    ),
    world.constants,
  );
  return limit === null || limit.back >= enough;
}
