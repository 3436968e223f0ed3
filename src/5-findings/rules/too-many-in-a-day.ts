import { type Problem, problem } from "../../0-base/problem.js";
import { counted } from "../../0-base/quantity.js";
import type { WeekLine } from "../../3-plan/ast.js";
import { always, amount, type Rule, text } from "../rule.js";

export const tooManyInADay: Rule = {
  id: "too-many-in-a-day",
  severity: always("error"),
  title: "More events in a day than the week allows",
  why: "You set the bound so that nobody tries an event tired from another.",
  source: "the week",
  bad: "event Sprint\n  stage 5 jump\nweek One\n  at most 1 event a day\n  2026-03-20 10:00  Sprint\n  «2026-03-20 18:00  Sprint again»\n",
  good: "event Sprint\n  stage 5 jump\nweek One\n  at most 1 event a day\n  2026-03-20 10:00  Sprint\n  2026-03-21 18:00  Sprint again\n",
  check: ({ line }) => (line.kind === "week" ? crowded(line) : []),
  message: (values) => `${text(values, "date")} has ${counted(amount(values, "events"), "event")}; the week allows ${amount(values, "most")} a day. Move this one to another day.`,
};

function crowded({ body }: WeekLine): readonly Problem[] {
  const most = Math.min(...body.flatMap((line) => (line.kind === "day limit" ? [line.most] : [])));
  const seen = new Map<string, number>();
  return body.flatMap((line): readonly Problem[] => {
    if (line.kind !== "day" || !line.event) return [];
    const events = (seen.get(line.date) ?? 0) + 1;
    seen.set(line.date, events);
    return events > most ? [problem("too-many-in-a-day", line.span, { date: line.date, events, most })] : [];
  });
}
