import { always, metEarlier, type Rule } from "../rule.js";

declare module "../../0-base/problem.js" {
  interface ProblemValues {
    "window-length": {};
  }
}

export const windowLength: Rule<"window-length"> = {
  id: "window-length",
  severity: always("error"),
  title: "A window without its length",
  why: "Windows follow one another, so each must say how long it is.",
  source: "the language",
  bad: "event Shift\n  score reps\n  «window women»\n",
  good: "event Shift\n  score reps\n  window 9 min for women\n",
  check: metEarlier("window-length"),
  message: () => "How long is this window? Write for example: window 9 min for women.",
};
