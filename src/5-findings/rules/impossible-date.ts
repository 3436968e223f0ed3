import { type Problem, problem } from "../../0-base/problem.js";
import { isoAt, isZone } from "../../0-base/zoned.js";
import type { WeekLine } from "../../3-plan/ast.js";
import { always, type Rule, text } from "../rule.js";

export const impossibleDate: Rule = {
  id: "impossible-date",
  severity: always("error"),
  title: "A day, an hour or a zone that there is not",
  why: "A week is worked out from its calendar: nothing can be placed on a day that never comes.",
  source: "the calendar; zones are those of the IANA time zone database that the platform has",
  bad: "week One\n  zone America/Halifax\n  «2026-02-30 18:00  rest»\n",
  good: "week One\n  zone America/Halifax\n  2026-02-28 18:00  rest\n",
  check: ({ line }) => (line.kind === "week" ? impossible(line) : []),
  message: (values) => `${text(values, "what")}. ${text(values, "zone") === "" ? "Look at the day and the hour." : "A zone is written like Europe/Dublin."}`,
};

function impossible({ body }: WeekLine): readonly Problem[] {
  return body.flatMap((line): readonly Problem[] => {
    switch (line.kind) {
      case "zone": return isZone(line.zone) ? [] : [unknownZone(line.zone, line.span)];
      case "due": return [...(line.zone === null || isZone(line.zone) ? [] : [unknownZone(line.zone, line.span)]), ...noSuch(line.date, line.time, line.span)];
      case "day": return noSuch(line.date, line.time ?? "00:00", line.span);
      default: return [];
    }
  });
}

function unknownZone(zone: string, span: Problem["span"]): Problem {
  return problem("impossible-date", span, { what: `There is no time zone “${zone}” here`, zone });
}

function noSuch(date: string, time: string, span: Problem["span"]): readonly Problem[] {
  if (isoAt(date, "00:00", "UTC") === null) return [problem("impossible-date", span, { what: `There is no ${date}`, zone: "" })];
  return isoAt(date, time, "UTC") === null ? [problem("impossible-date", span, { what: `There is no ${time} in a day`, zone: "" })] : [];
}
