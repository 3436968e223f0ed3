import { plain } from "../../0-base/quantity.js";
import { always, amount, metEarlier, type Rule, text } from "../rule.js";

export const assumptionRange: Rule = {
  id: "assumption-range",
  severity: always("error"),
  title: "A constant outside its range",
  why: "Outside its range a constant makes the model say things it cannot know.",
  source: "the models",
  bad: "assume handover «90 s»\n",
  good: "assume handover 4 s\n",
  check: metEarlier("assumption-range"),
  message: (values) => {
    const share = values.dimension === "share";
    const show = (name: string): string =>
      share ? `${plain(100 * amount(values, name))} %` : `${plain(amount(values, name), 5)}${values.dimension === "time" ? " s" : ""}`;
    return `“${text(values, "name")}” may be ${show("least")} to ${show("most")}.`;
  },
};
