import { always, either, list, metEarlier, type Rule, text } from "../rule.js";

export const saidOtherwise: Rule = {
  id: "said-otherwise",
  severity: always("error"),
  title: "A line in other words than the language has",
  why: "It is clear enough to a reader; the notebook needs it in its own words, so that a typo is never taken for something.",
  source: "the language",
  bad: "team Pier Nine\n  Ada woman\n  Olu man\nability  Ada  Olu\n  box jump unbroken 20 20 reps\n  box jump cycle 2 2 s\nevent Sprint\n  stage 20 box jump\nplan Simple for Sprint\n  Ada + Olu 5 each\n  «Ada and Olu 5 each»\n",
  good: "team Pier Nine\n  Ada woman\n  Olu man\nability  Ada  Olu\n  box jump unbroken 20 20 reps\n  box jump cycle 2 2 s\nevent Sprint\n  stage 20 box jump\nplan Simple for Sprint\n  Ada + Olu 5 each\n  Ada + Olu 5 each\n",
  check: metEarlier("said-otherwise"),
  message: (values) => {
    const meant = list(values, "meant");
    return meant.length > 0 ? `“${text(values, "typed")}” is written: ${either(meant.slice(0, 4))}.` : `“${text(values, "typed")}”: who?`;
  },
};
