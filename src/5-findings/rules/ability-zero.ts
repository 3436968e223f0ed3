import { always, metEarlier, type Rule } from "../rule.js";

declare module "../../0-base/problem.js" {
  interface ProblemValues {
    "ability-zero": { measure: string };
  }
}

export const abilityZero: Rule<"ability-zero"> = {
  id: "ability-zero",
  severity: always("error"),
  title: "A test result of zero",
  why: "Nobody can be planned for work they cannot do at all, and no model starts from zero.",
  source: "the models",
  bad: "team Pier Nine\n  Ada woman\nability  Ada\n  box jump unbroken «0 reps»\n",
  good: "team Pier Nine\n  Ada woman\nability  Ada\n  box jump unbroken - reps\n",
  check: metEarlier("ability-zero"),
  message: (values) => `A result of zero for ${values.measure} cannot be used. Write - where it is not known.`,
};
