import { always, metEarlier, type Rule, text } from "../rule.js";

export const declaredTwice: Rule = {
  id: "declared-twice",
  severity: always("error"),
  title: "A name declared twice",
  why: "All documents of a notebook share their names: with two of one name nobody can tell which is meant.",
  source: "the language",
  bad: "team Pier Nine\n  Ada woman\n  Olu man\n  «Ada» woman\n",
  good: "team Pier Nine\n  Ada woman\n  Olu man\n  Eda woman\n",
  check: metEarlier("declared-twice"),
  message: (values) =>
    `The ${text(values, "what")} “${text(values, "name")}” is already declared${text(values, "where") === "" ? " here" : ` in ${text(values, "where")}`}. Give one of the two another name.`,
};
