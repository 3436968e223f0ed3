import { problem } from "../../0-base/problem.js";
import { always, type Rule } from "../rule.js";

declare module "../../0-base/problem.js" {
  interface ProblemValues {
    "effort-range": { what: string; value: number };
  }
}

export const effortRange: Rule<"effort-range"> = {
  id: "effort-range",
  severity: always("error"),
  title: "An effort or a weight that means nothing",
  why: "Effort is rated from 0 to 10; a weight of 0 or less would leave the event out of every sum.",
  source: "effort: the ten-point scale of perceived exertion that session load is made from (Foster 1998)",
  bad: "event Sprint\n  stage 5 jump\nweek One\n  «2026-03-20 10:00  Sprint effort 12»\n",
  good: "event Sprint\n  stage 5 jump\nweek One\n  2026-03-20 10:00  Sprint effort 8 weight 2\n",
  check: ({ line }) =>
    line.kind !== "week" && line.kind !== "log"
      ? []
      : line.body.flatMap((one) => {
          if (one.kind === "log felt" && one.effort > 10) return [problem("effort-range", one.span, { what: "effort", value: one.effort })];
          if (one.kind !== "day") return [];
          if (one.effort !== null && one.effort > 10) return [problem("effort-range", one.span, { what: "effort", value: one.effort })];
          return one.weight !== null && one.weight <= 0 ? [problem("effort-range", one.span, { what: "weight", value: one.weight })] : [];
        }),
  message: (values) =>
    values.what === "effort"
      ? `Effort goes from 0 to 10, and this says ${values.value}.`
      : "A weight is more than 0: 1 is usual, 2 counts twice.",
};
