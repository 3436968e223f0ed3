import { always, list, metEarlier, type Rule } from "../rule.js";

export const cycle: Rule = {
  id: "cycle",
  severity: always("error"),
  title: "Values that depend on each other in a circle",
  why: "Each waits for the other, so none of them ever has a value.",
  source: "the language",
  bad: "let pace = «pace» + 1\n",
  good: "let pace = 30 + 1\n",
  check: metEarlier("cycle"),
  message: (values) => `This goes round in a circle: ${list(values, "names").join(" → ")}. Give one of them a number of its own.`,
};
