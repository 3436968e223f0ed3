import { always, metEarlier, type Rule } from "../rule.js";

declare module "../../0-base/problem.js" {
  interface ProblemValues {
    "declared-twice": { what: string; name: string; where: string };
  }
}

export const declaredTwice: Rule<"declared-twice"> = {
  id: "declared-twice",
  severity: always("error"),
  title: "A name declared twice",
  why: "All documents of a notebook share their names: with two of one name nobody can tell which is meant.",
  source: "the language",
  bad: "team Pier Nine\n  Ada woman\n  Olu man\n  «Ada» woman\n",
  good: "team Pier Nine\n  Ada woman\n  Olu man\n  Eda woman\n",
  check: metEarlier("declared-twice"),
  message: (values) =>
    values.what === "line for"
      ? `The ${values.where} says ${values.name} twice, and only one would count. Take one of the two away.`
      : `The ${values.what} “${values.name}” is already declared${values.where === "" ? " here" : ` in ${values.where}`}. Give one of the two another name.`,
};
