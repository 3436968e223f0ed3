import { always, metEarlier, type Rule } from "../rule.js";

declare module "../../0-base/problem.js" {
  interface ProblemValues {
    "unit-mismatch": { given: string; wanted: string };
  }
}

export const unitMismatch: Rule<"unit-mismatch"> = {
  id: "unit-mismatch",
  severity: always("error"),
  title: "A unit that does not fit",
  why: "A time cannot be a load: the number would be read as something it is not.",
  source: "the language",
  bad: "event Sprint\n  cap «5 kg»\n",
  good: "event Sprint\n  cap 5 min\n",
  check: metEarlier("unit-mismatch"),
  message: (values) => {
    const given = values.given;
    return `${given === "" ? "A number without a unit" : `“${given}”`} does not fit here. Write ${values.wanted}.`;
  },
};
