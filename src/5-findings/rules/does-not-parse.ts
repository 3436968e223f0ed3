import { always, amount, either, list, metEarlier, type Rule, text } from "../rule.js";

export const doesNotParse: Rule = {
  id: "does-not-parse",
  severity: always("error"),
  title: "A line that cannot be read",
  why: "Every line that is not a heading (#), a note (>) or a comment (//) is part of the plan, so a typo must not pass for prose.",
  source: "the language",
  bad: "event Sprint\n  cap «five minutes»\n",
  good: "event Sprint\n  cap 5 min\n",
  check: metEarlier("does-not-parse"),
  message: (values) => {
    if (values.tooLong === true) return `This line is longer than ${amount(values, "most")} characters. Break it into several.`;
    const near = list(values, "near");
    const read = text(values, "read");
    const expected = list(values, "expected");
    const junk = text(values, "junk");
    const stuck = junk === "" ? `The line stops too early` : `“${junk}” does not fit here`;
    if (near.length > 0) return `${stuck}. Did you mean ${either(near)}?`;
    if (read === "")
      return `${stuck}: a line begins with a name, a number or a word such as stage, repeat or rest. For a note, begin with >.`;
    if (values.ends === true)
      return `${stuck}. The line could end after “${read}”${expected.length > 0 ? `, or go on with ${either(expected)}` : ""}.`;
    return expected.length > 0
      ? `${stuck}. After “${read}” comes ${either(expected)}.`
      : `${stuck}. Begin with a name, a number or a word such as stage, repeat or rest.`;
  },
};
