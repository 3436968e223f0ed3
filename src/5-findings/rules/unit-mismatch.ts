import { always, metEarlier, type Rule, text } from "../rule.js";

export const unitMismatch: Rule = {
  id: "unit-mismatch",
  severity: always("error"),
  title: "A unit that does not fit",
  why: "A time cannot be a load: the number would be read as something it is not.",
  source: "the language",
  bad: "event Sprint\n  cap «5 kg»\n",
  good: "event Sprint\n  cap 5 min\n",
  check: metEarlier("unit-mismatch"),
  message: (values) => {
    const given = text(values, "given");
    return `${given === "" ? "A number without a unit" : `“${given}”`} does not fit here. Write ${text(values, "wanted")}.`;
  },
};
