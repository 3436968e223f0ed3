import { always, either, metEarlier, type Rule } from "../rule.js";

declare module "../../0-base/problem.js" {
  interface ProblemValues {
    "said-otherwise": { meant: readonly string[]; typed: string };
  }
}

export const saidOtherwise: Rule<"said-otherwise"> = {
  id: "said-otherwise",
  severity: always("error"),
  title: "A line in other words than the language has",
  why: "It is clear enough to a reader; the notebook needs it in its own words, so that a typo is never taken for something.",
  source: "the language",
  bad: "team Pier Nine\n  Ada woman\n  Olu man\nability  Ada  Olu\n  box jump unbroken 20 20 reps\n  box jump cycle 2 2 s\nevent Sprint\n  stage 20 box jump\nplan Simple for Sprint\n  Ada + Olu 5 each\n  «Ada and Olu 5 each»\n",
  good: "team Pier Nine\n  Ada woman\n  Olu man\nability  Ada  Olu\n  box jump unbroken 20 20 reps\n  box jump cycle 2 2 s\nevent Sprint\n  stage 20 box jump\nplan Simple for Sprint\n  Ada + Olu 5 each\n  Ada + Olu 5 each\n",
  check: metEarlier("said-otherwise"),
  message: (values) => {
    const meant = values.meant;
    return meant.length > 0 ? `“${values.typed}” is written: ${either(meant.slice(0, 4))}.` : `“${values.typed}”: who?`;
  },
};
