import { always, metEarlier, type Rule } from "../rule.js";

declare module "../../0-base/problem.js" {
  interface ProblemValues {
    "athlete-one-word": { name: string };
  }
}

export const athleteOneWord: Rule<"athlete-one-word"> = {
  id: "athlete-one-word",
  severity: always("error"),
  title: "An athlete's name of several words",
  why: "In pairs and tables names stand side by side, so an athlete's name is one word.",
  source: "the language",
  bad: "team Pier Nine\n  «Ada Wren» woman\n",
  good: "team Pier Nine\n  Ada-Wren woman\n",
  check: metEarlier("athlete-one-word"),
  message: (values) =>
    `“${values.name}” is more than one word. Use one, such as ${values.name.split(" ")[0] ?? ""} or ${values.name.replace(/ /g, "-")}.`,
};
