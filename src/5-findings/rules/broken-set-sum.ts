import { always, metEarlier, type Rule } from "../rule.js";

declare module "../../0-base/problem.js" {
  interface ProblemValues {
    "broken-set-sum": { parts: string; sum: number; size: number };
  }
}

const ground =
  "team Pier Nine\n  Ada woman\nability  Ada\n  box jump unbroken 20 reps\n  box jump cycle 2 s\nevent Sprint\n  stage 10 box jump\nplan Simple for Sprint\n";

export const brokenSetSum: Rule<"broken-set-sum"> = {
  id: "broken-set-sum",
  severity: always("error"),
  title: "A broken set whose parts do not add up",
  why: "The athlete would not know whether to do the number or its parts.",
  source: "the language",
  bad: `${ground}  Ada 10 «as 4+3+2 rest 5 s»\n  Ada 1\n`,
  good: `${ground}  Ada 10 as 4+3+3 rest 5 s\n`,
  check: metEarlier("broken-set-sum"),
  message: (values) => `${values.parts} is ${values.sum}, not ${values.size}. The parts are used: change one of the two.`,
};
