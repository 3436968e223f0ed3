import { type Problem, problem, type ProblemOf } from "../../0-base/problem.js";
import { isDate, isZone, momentOf } from "../../0-base/zoned.js";
import type { Line, WeekLine } from "../../3-plan/ast.js";
import type { Hours } from "../../3-plan/parts.js";
import { always, type Rule } from "../rule.js";

declare module "../../0-base/problem.js" {
  interface ProblemValues {
    "impossible-date": { what: string; zone: string };
  }
}

export const impossibleDate: Rule<"impossible-date"> = {
  id: "impossible-date",
  severity: always("error"),
  title: "A day, an hour or a zone that there is not",
  why: "Weeks, tests and tries are placed by their dates, and nothing can be placed on a day that never comes.",
  source: "the calendar; zones are those of the IANA time zone database that the platform has",
  bad: "week One\n  zone America/Halifax\n  «2026-02-30 18:00  rest»\n",
  good: "week One\n  zone America/Halifax\n  2026-02-28 18:00  rest\n",
  check: ({ line }) => impossible(line),
  message: (values) => `${values.what}. ${values.zone === "" ? "Look at the day and the hour." : "A zone is written like Europe/Dublin."}`,
};

function impossible(line: Line): readonly ProblemOf<"impossible-date">[] {
  switch (line.kind) {
    case "week":
      return inWeek(line);
    case "log":
      return noSuch(line.date, line.time ?? "00:00", line.span);
    case "ability":
      return line.on === null ? [] : noSuch(line.on, "00:00", line.span);
    default:
      return [];
  }
}

function inWeek({ body }: WeekLine): readonly ProblemOf<"impossible-date">[] {
  return body.flatMap((line): readonly ProblemOf<"impossible-date">[] => {
    switch (line.kind) {
      case "zone":
        return isZone(line.zone) ? [] : [unknownZone(line.zone, line.span)];
      case "due":
        return [
          ...(line.zone === null || isZone(line.zone) ? [] : [unknownZone(line.zone, line.span)]),
          ...noSuch(line.date, line.time, line.span),
        ];
      case "day":
        return noSuch(line.date, line.time ?? "00:00", line.span);
      case "open":
        return [line.hours.from, line.hours.to]
          .flatMap((time) => noSuch(line.date, time, line.span))
          .slice(0, 1)
          .concat(backwards(line.hours, line.span));
      case "away":
        return [...noSuch(line.date, line.hours?.from ?? "00:00", line.span), ...noSuch(line.until, line.hours?.to ?? "00:00", line.span)]
          .slice(0, 1)
          .concat(line.hours ? backwards(line.hours, line.span) : [])
          .concat(line.until !== null && line.until < line.date ? [endsFirst(line.date, line.until, line.span)] : []);
      default:
        return [];
    }
  });
}

function unknownZone(zone: string, span: Problem["span"]): ProblemOf<"impossible-date"> {
  return problem("impossible-date", span, { what: `There is no time zone “${zone}” here`, zone });
}

function backwards({ from, to }: Hours, span: Problem["span"]): readonly ProblemOf<"impossible-date">[] {
  return from.padStart(5, "0") >= to.padStart(5, "0") ? [endsFirst(from, to, span)] : [];
}

function endsFirst(from: string, to: string, span: Problem["span"]): ProblemOf<"impossible-date"> {
  return problem("impossible-date", span, { what: `${from}–${to} ends before it begins`, zone: "" });
}

/** Without a day the hour alone is looked at. */
function noSuch(date: string | null, time: string, span: Problem["span"]): readonly ProblemOf<"impossible-date">[] {
  if (date !== null && !isDate(date)) return [problem("impossible-date", span, { what: `There is no ${date}`, zone: "" })];
  return momentOf("2026-01-01", time, "UTC") === null
    ? [problem("impossible-date", span, { what: `There is no ${time} in a day`, zone: "" })]
    : [];
}
