import { plain } from "../../0-base/quantity.js";
import { always, metEarlier, type Rule } from "../rule.js";

declare module "../../0-base/problem.js" {
  interface ProblemValues {
    "assumption-range": { name: string; least: number; most: number; dimension: string };
  }
}

export const assumptionRange: Rule<"assumption-range"> = {
  id: "assumption-range",
  severity: always("error"),
  title: "A constant outside its range",
  why: "Outside its range a constant makes the model say things it cannot know.",
  source: "the models",
  bad: "assume handover «90 s»\n",
  good: "assume handover 4 s\n",
  check: metEarlier("assumption-range"),
  message: (values) => {
    const { name, least, most, dimension } = values;
    const show = (value: number): string =>
      dimension === "share" ? `${plain(100 * value)} %` : `${plain(value, 5)}${dimension === "time" ? " s" : ""}`;
    return `“${name}” may be ${show(least)} to ${show(most)}.`;
  },
};
