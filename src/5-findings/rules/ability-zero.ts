import { always, metEarlier, type Rule, text } from "../rule.js";

export const abilityZero: Rule = {
  id: "ability-zero",
  severity: always("error"),
  title: "A test result of zero",
  why: "Nobody can be planned for work they cannot do at all, and no model starts from zero.",
  source: "the models",
  bad: "team Pier Nine\n  Ada woman\nability  Ada\n  box jump unbroken «0 reps»\n",
  good: "team Pier Nine\n  Ada woman\nability  Ada\n  box jump unbroken - reps\n",
  check: metEarlier("ability-zero"),
  message: (values) => `A result of zero for ${text(values, "measure")} cannot be used. Write - where it is not known.`,
};
