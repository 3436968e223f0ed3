import { clock } from "../../0-base/quantity.js";
import { always, metEarlier, type Rule } from "../rule.js";

declare module "../../0-base/problem.js" {
  interface ProblemValues {
    "too-long-an-event": { seconds: number; most: number };
  }
}

export const tooLongAnEvent: Rule<"too-long-an-event"> = {
  id: "too-long-an-event",
  severity: always("error"),
  title: "A cap or a window longer than any event",
  why: "Hours are easily typed for minutes, and nobody can plan what lasts so long.",
  source: "common practice",
  bad: "event Sprint\n  cap «18 h»\n  stage 10 box jump\n",
  good: "event Sprint\n  cap 18 min\n  stage 10 box jump\n",
  check: metEarlier("too-long-an-event"),
  message: (values) => `${clock(values.seconds)} is longer than any event: ${clock(values.most)} are taken. Did you mean minutes?`,
};
