import { always, either, list, metEarlier, type Rule, text } from "../rule.js";

export const outOfPlace: Rule = {
  id: "out-of-place",
  severity: always("error"),
  title: "A line in the wrong block",
  why: "A line that belongs to another kind of block changes nothing where it stands.",
  source: "the language",
  bad: "team Pier Nine\n  Ada woman\n  «cap 5 min»\n",
  good: "event Sprint\n  cap 5 min\n",
  check: metEarlier("out-of-place"),
  message: (values) => {
    const under = text(values, "under");
    const owners = list(values, "owners");
    const where = under === "" ? "at the margin" : `under ${under}`;
    const belongs = owners.length === 0 ? "It stands at the margin, under nothing" : `It belongs under ${either(owners)}`;
    return `A line of this kind (${text(values, "what")}) does nothing ${where}. ${belongs}: check its indentation.`;
  },
};
