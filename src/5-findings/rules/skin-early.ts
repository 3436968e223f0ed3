import { problem } from "../../0-base/problem.js";
import { plain } from "../../0-base/quantity.js";
import { pierNine } from "../examples.js";
import { always, type Rule } from "../rule.js";
import { inOrder, meanUnits, weekOf } from "../week-rule.js";

declare module "../../0-base/problem.js" {
  interface ProblemValues {
    "skin-early": { event: string; units: number; later: string };
  }
}

/** Units of hands from which skin may tear, and from which an event needs the hands. */
const much = 1;
const needs = 0.3;
const hanging = `${pierNine}movement box jump\n  asks hands 40 %, engine 60 %\nevent Bars\n  cap 30 min\n  stage 160 box jump\nplan P for Bars\n  repeat\n    Ada 4\n    rest 10 s\n    Olu 4\n    rest 10 s\nevent Sprint\n  cap 10 min\n  stage 40 box jump\nplan Quick for Sprint\n  repeat\n    Ada 4\n    rest 10 s\n    Olu 4\n    rest 10 s\nweek One\n`;

export const skinEarly: Rule<"skin-early"> = {
  id: "skin-early",
  severity: always("warning"),
  title: "Much hanging work while events for the hands are still to come",
  why: "Torn hands take days, and tape is no skin.",
  source: "common practice, no source",
  bad: `${hanging}  «2026-03-20 10:00  Bars plan P»\n  2026-03-23 10:00  Sprint plan Quick\n`,
  good: `${hanging}  2026-03-20 10:00  Sprint plan Quick\n  2026-03-23 10:00  Bars plan P\n`,
  check: (judged) => {
    const week = weekOf(judged);
    if (!week) return [];
    const sessions = inOrder(week);
    const hands = (run: (typeof sessions)[number]): number => meanUnits(run, ["hands"]);
    return sessions.flatMap((run, at) => {
      const later = sessions
        .slice(at + 1)
        .find((other) => other.session.event !== run.session.event && hands(other) >= needs && hands(other) < hands(run));
      return hands(run) >= much && later
        ? [problem("skin-early", run.session.span, { units: hands(run), event: run.session.event, later: later.session.event })]
        : [];
    });
  },
  message: (values) =>
    `${values.event} leaves ${plain(values.units)} sets' worth of hanging in the hands, and ${values.later} still needs them. Try ${values.later} first.`,
};
