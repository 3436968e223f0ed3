import { always, either, metEarlier, type Rule } from "../rule.js";

declare module "../../0-base/problem.js" {
  interface ProblemValues {
    "out-of-place": { what: string; under: string; owners: readonly string[]; below: number };
  }
}

export const outOfPlace: Rule<"out-of-place"> = {
  id: "out-of-place",
  severity: always("error"),
  title: "A line in the wrong block",
  why: "A line that belongs to another kind of block changes nothing where it stands.",
  source: "the language",
  bad: "team Pier Nine\n  Ada woman\n  «cap 5 min»\n",
  good: "event Sprint\n  cap 5 min\n",
  check: metEarlier("out-of-place"),
  message: (values) => {
    const [what, under] = [values.what, values.under];
    const owners = values.owners;
    const belongs = owners.length === 0 ? "stands at the margin" : `belongs under ${either(owners)}`;
    const nor = values.below > 0 ? `, nor ${values.below === 1 ? "does the line" : `do the ${values.below} lines`} below it` : "";
    return `A line of this kind (${what}) ${belongs}. ${under === "" ? "At the margin" : `Here, under ${under},`} it does nothing${nor}.`;
  },
};
