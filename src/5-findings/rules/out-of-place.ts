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
    const [what, under] = [text(values, "what"), text(values, "under")];
    const owners = list(values, "owners");
    const belongs = owners.length === 0 ? "stands at the margin" : `belongs under ${either(owners)}`;
    return `A line of this kind (${what}) ${belongs}. ${under === "" ? "At the margin" : `Here, under ${under},`} it does nothing.`;
  },
};
