import { always, metEarlier, type Rule } from "../rule.js";

declare module "../../0-base/problem.js" {
  interface ProblemValues {
    cycle: { names: readonly string[] };
  }
}

export const cycle: Rule<"cycle"> = {
  id: "cycle",
  severity: always("error"),
  title: "Values that depend on each other in a circle",
  why: "Each waits for the other, so none of them ever has a value.",
  source: "the language",
  bad: "let pace = «pace» + 1\n",
  good: "let pace = 30 + 1\n",
  check: metEarlier("cycle"),
  message: (values) => `This goes round in a circle: ${values.names.join(" → ")}. Give one of them a number of its own.`,
};
