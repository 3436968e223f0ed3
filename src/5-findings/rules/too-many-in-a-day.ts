import { counted } from "../../0-base/quantity.js";
import { always, type Rule } from "../rule.js";
import { faulty } from "../week-rule.js";

declare module "../../0-base/problem.js" {
  interface ProblemValues {
    "too-many-in-a-day": { date: string; events: number; most: number };
  }
}

export const tooManyInADay: Rule<"too-many-in-a-day"> = {
  id: "too-many-in-a-day",
  severity: always("error"),
  title: "More events in a day than the week allows",
  why: "You set the bound so that nobody tries an event tired from another.",
  source: "the week",
  bad: "event Sprint\n  stage 5 jump\nweek One\n  at most 1 event a day\n  2026-03-20 10:00  Sprint\n  «2026-03-20 18:00  Sprint again»\n",
  good: "event Sprint\n  stage 5 jump\nweek One\n  at most 1 event a day\n  2026-03-20 10:00  Sprint\n  2026-03-21 18:00  Sprint again\n",
  check: faulty("too-many-in-a-day", "crowded", ({ date, events }, { spec }) => ({ date, events, most: spec.mostADay })),
  message: (values) =>
    `${values.date} has ${counted(values.events, "event")}; the week allows ${values.most} a day. Move this one to another day.`,
};
