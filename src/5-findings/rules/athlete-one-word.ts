import { always, metEarlier, type Rule, text } from "../rule.js";

export const athleteOneWord: Rule = {
  id: "athlete-one-word",
  severity: always("error"),
  title: "An athlete's name of several words",
  why: "In pairs and tables names stand side by side, so an athlete's name is one word.",
  source: "the language",
  bad: "team Pier Nine\n  «Ada Wren» woman\n",
  good: "team Pier Nine\n  Ada-Wren woman\n",
  check: metEarlier("athlete-one-word"),
  message: (values) =>
    `“${text(values, "name")}” is more than one word. Use one, such as ${text(values, "name").split(" ")[0] ?? ""} or ${text(values, "name").replace(/ /g, "-")}.`,
};
