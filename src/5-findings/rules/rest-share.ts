import { always, metEarlier, type Rule } from "../rule.js";

declare module "../../0-base/problem.js" {
  interface ProblemValues {
    "rest-share": {};
  }
}

const ground =
  "team Pier Nine\n  Ada woman\nability  Ada\n  box jump unbroken 20 reps\n  box jump cycle 2 s\nevent Sprint\n  stage 10 box jump\nplan Simple for Sprint\n  Ada 5\n";

export const restShare: Rule<"rest-share"> = {
  id: "rest-share",
  severity: always("error"),
  title: "A rest that never ends",
  why: "A reserve comes back ever more slowly and is never quite full again.",
  source: "the reserve model",
  bad: `${ground}  Ada rest until «100 %»\n  Ada 5\n`,
  good: `${ground}  Ada rest until 80 %\n  Ada 5\n`,
  check: metEarlier("rest-share"),
  message: () => "Nobody is quite fresh again within an event. Write 99 % at most.",
};
