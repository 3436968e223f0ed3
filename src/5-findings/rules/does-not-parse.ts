import { always, either, metEarlier, type Rule } from "../rule.js";

declare module "../../0-base/problem.js" {
  interface ProblemValues {
    "does-not-parse":
      | { tooLong: true; most: number }
      | { tooLong: false; read: string; junk: string; expected: readonly string[]; near: readonly string[]; ends: boolean };
  }
}

export const doesNotParse: Rule<"does-not-parse"> = {
  id: "does-not-parse",
  severity: always("error"),
  title: "A line that cannot be read",
  why: "Every line that is not a heading (#), a note (>) or a comment (//) is part of the plan, so a typo must not pass for prose.",
  source: "the language",
  bad: "event Sprint\n  cap «five minutes»\n",
  good: "event Sprint\n  cap 5 min\n",
  check: metEarlier("does-not-parse"),
  message: (values) => {
    if (values.tooLong) return `This line is longer than ${values.most} characters. Break it into several.`;
    const near = values.near;
    const read = values.read;
    const expected = values.expected;
    const junk = values.junk;
    const stuck = junk === "" ? `The line stops too early` : `“${junk}” does not fit here`;
    if (near.length > 0) return `${stuck}. Did you mean ${either(near)}?`;
    if (read === "")
      return `${stuck}: a line begins with a name, a number or a word such as stage, repeat or rest. For a note, begin with >.`;
    if (values.ends)
      return `${stuck}. The line could end after “${read}”${expected.length > 0 ? `, or go on with ${either(expected)}` : ""}.`;
    return expected.length > 0
      ? `${stuck}. After “${read}” comes ${either(expected)}.`
      : `${stuck}. Begin with a name, a number or a word such as stage, repeat or rest.`;
  },
};
