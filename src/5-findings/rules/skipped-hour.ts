import { type Problem, problem, type ProblemOf } from "../../0-base/problem.js";
import { wallAt } from "../../0-base/zoned.js";
import { type Rule } from "../rule.js";
import { weekOf } from "../week-rule.js";

declare module "../../0-base/problem.js" {
  interface ProblemValues {
    "skipped-hour": { fold: string; zone: string; time: string };
  }
}

const ground = "event Sprint\n  cap 5 min\n  stage 5 jump\nweek One\n  zone America/Halifax\n";

export const skippedHour: Rule<"skipped-hour"> = {
  id: "skipped-hour",
  severity: ({ fold }) => (fold === "skipped" ? "warning" : "note"),
  title: "An hour that the clocks skip, or show twice",
  why: "When clocks are put forward or back, an hour there does not exist, or exists twice.",
  source: "RFC 5545, section 3.3.5: an hour that comes twice is the first, one that is skipped counts by the offset before",
  bad: `${ground}  «2026-03-08 02:30  Sprint»\n`,
  good: `${ground}  2026-03-08 03:30  Sprint\n`,
  check: (judged) => {
    const week = weekOf(judged);
    if (!week) return [];
    const {
      spec: { zone, due, sessions },
    } = week;
    const found = (
      moment: { readonly atS: number; readonly fold: string } | null,
      span: Problem["span"],
      where: string,
    ): readonly ProblemOf<"skipped-hour">[] =>
      moment && moment.fold !== "once"
        ? [problem("skipped-hour", span, { fold: moment.fold, zone: where, time: wallAt(moment.atS, where).time })]
        : [];
    return [...sessions.flatMap(({ start, span }) => found(start, span, zone)), ...(due ? found(due, due.span, due.zone) : [])];
  },
  message: (values) =>
    values.fold === "skipped"
      ? `Clocks in ${values.zone} skip this hour: it is read as ${values.time} (RFC 5545). Write the hour that is meant.`
      : `Clocks in ${values.zone} show this hour twice that day: the first is meant (RFC 5545).`,
};
