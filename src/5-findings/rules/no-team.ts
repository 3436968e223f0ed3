import { always, metEarlier, type Rule } from "../rule.js";

declare module "../../0-base/problem.js" {
  interface ProblemValues {
    "no-team": { name: string };
  }
}

export const noTeam: Rule<"no-team"> = {
  id: "no-team",
  severity: always("error"),
  title: "A plan for no known team",
  why: "Without athletes there is nobody to do the work.",
  source: "the language",
  bad: "event Sprint\n  stage 5 box jump\nplan «Simple» for Sprint\n  repeat\n",
  good: "team Pier Nine\n  Ada woman\nability  Ada\n  box jump unbroken 20 reps\n  box jump cycle 2 s\nevent Sprint\n  stage 5 box jump\nplan Simple for Sprint\n  Ada 5\n",
  check: metEarlier("no-team"),
  message: (values) => `Plan ${values.name} names no athlete of any team of this notebook. Begin with a team block.`,
};
