import { problem } from "../../0-base/problem.js";
import { isDate } from "../../0-base/zoned.js";
import { readWeek } from "../../3-plan/week.js";
import { pierNine } from "../examples.js";
import { always, type Rule } from "../rule.js";

declare module "../../0-base/problem.js" {
  interface ProblemValues {
    "log-outside-week": { date: string; week: string; first: string; last: string };
  }
}

const ground = `${pierNine}event Sprint\n  stage jumps 10 box jump\nplan P for Sprint\n  Ada 5\n  Olu 5\nweek W\n  zone UTC\n  2026-03-20 18:00 Sprint plan P\n  2026-03-23 18:00 Sprint again\n`;

export const logOutsideWeek: Rule<"log-outside-week"> = {
  id: "log-outside-week",
  severity: always("warning"),
  title: "A log dated outside of the event's week",
  why: "A log with a wrong date counts for too much, or for nothing, and its try is not found in the week.",
  source: "the week",
  bad: `${ground}log P on «2026-04-23»\n  finish 0:50\n`,
  good: `${ground}log P on 2026-03-23\n  finish 0:50\n`,
  check: ({ line, text: source, evaluation }) => {
    if (line.kind !== "log" || !isDate(line.date)) return [];
    const event = evaluation.named(line.plan.text)?.resolved.plan?.event.name;
    const weeks = evaluation.world.weeks
      .map((one) => readWeek(one.line))
      .filter(({ sessions, days }) => days.length > 0 && sessions.some((session) => session.event === event));
    if (weeks.length === 0 || weeks.some(({ days }) => days.includes(line.date))) return [];
    const from = source.indexOf(line.date, line.span.from);
    const [week] = weeks;
    return [
      problem(
        "log-outside-week",
        { from, to: from + line.date.length },
        { date: line.date, week: week?.name ?? "", first: week?.days[0] ?? "", last: week?.days.at(-1) ?? "" },
      ),
    ];
  },
  message: (values) => `${values.date} is no day of the week ${values.week}, ${values.first} to ${values.last}. Check the date.`,
};
