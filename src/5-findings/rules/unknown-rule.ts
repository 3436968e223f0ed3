import { always, list, metEarlier, type Rule } from "../rule.js";

export const unknownRule: Rule = {
  id: "unknown-rule",
  severity: always("error"),
  title: "A rule that Rotaline cannot check",
  why: "A rule that is not understood is not checked, and the plan may break it.",
  source: "the language",
  bad: "event Sprint\n  stage 10 box jump\n  «rule hold at most 45 s»\n",
  good: "event Sprint\n  stage 10 box jump\n  rule hold turn at most 45 s\n",
  check: metEarlier("unknown-rule"),
  message: (values) => `This rule is not known. Near ones: ${list(values, "near").map((form) => `rule ${form}`).join("; ")}, where P is a share, T a time and N a number of reps.`,
};
