import { always, either, metEarlier, type Rule } from "../rule.js";
import { unknownInRules } from "./unknown-rule.js";

declare module "../../0-base/problem.js" {
  interface ProblemValues {
    "unknown-name": { near: readonly string[]; what: string; name: string };
  }
}

export const unknownName: Rule<"unknown-name"> = {
  id: "unknown-name",
  severity: always("error"),
  title: "A name that nothing declares",
  why: "A misspelt name would leave someone out of the plan without a word.",
  source: "the language",
  bad: "team Pier Nine\n  Ada woman\nevent Sprint\n  stage 10 box jump\nplan Simple for Sprint\n  Ada 5\n  «Adda» 5\nability  Ada\n  box jump unbroken  20 reps\n  box jump cycle  2 s\n",
  good: "team Pier Nine\n  Ada woman\nevent Sprint\n  stage 10 box jump\nplan Simple for Sprint\n  Ada 5\n  Ada 5\nability  Ada\n  box jump unbroken  20 reps\n  box jump cycle  2 s\n",
  check: (judged) => [...metEarlier("unknown-name")(judged), ...unknownInRules(judged)],
  message: (values) => {
    const near = values.near;
    const hint = near.length > 0 ? `Did you mean ${either(near)}?` : "Declare it, or write a name the notebook has.";
    return `There is no ${values.what} called “${values.name}” here. ${hint}`;
  },
};
