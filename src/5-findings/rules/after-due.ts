import { plain } from "../../0-base/quantity.js";
import { wallAt } from "../../0-base/zoned.js";
import { always, type Rule } from "../rule.js";
import { faulty, firstAfterDue } from "../week-rule.js";

declare module "../../0-base/problem.js" {
  interface ProblemValues {
    "after-due": { end: string; by: string; due: string; keep: number };
  }
}

const ground =
  "event Sprint\n  cap 5 min\n  stage 5 jump\nweek One\n  zone Europe/Lisbon\n  due 2026-03-23 17:00\n  keep 2 h before due\n  2026-03-20 10:00  Sprint\n";

const late = faulty("after-due", "late", ({ endS, byS }, { spec }) => {
  const [end, by, due] = [endS, byS, spec.due?.atS ?? byS].map((atS) => wallAt(atS, spec.zone));
  return {
    end: `${end?.weekday} ${end?.time}`,
    by: `${by?.weekday} ${by?.time}`,
    due: `${due?.weekday} ${due?.time} in ${spec.zone}`,
    keep: spec.keepS / 3600,
  };
});

export const afterDue: Rule<"after-due"> = {
  id: "after-due",
  severity: always("error"),
  title: "An event that ends too late for its score to be sent",
  why: "A score that is not in by the due time does not count.",
  source: "the published due time, and the time that the week keeps before it",
  bad: `${ground}  «2026-03-23 15:30  Sprint again»\n`,
  good: `${ground}  2026-03-23 12:30  Sprint again\n`,
  check: (judged) => (firstAfterDue(judged) ? [] : late(judged)),
  message: (values) =>
    `It ends ${values.end}, and has to be over by ${values.by}: the score is due ${values.due}${values.keep > 0 ? `, with ${plain(values.keep)} h kept to send it` : ""}. Move it forward.`,
};
