import { counted } from "../../0-base/quantity.js";
import { always, metEarlier, type Rule } from "../rule.js";

declare module "../../0-base/problem.js" {
  interface ProblemValues {
    "row-length": { cells: number; athletes: number };
  }
}

export const rowLength: Rule<"row-length"> = {
  id: "row-length",
  severity: always("error"),
  title: "A row with too few or too many cells",
  why: "Each number stands under its athlete: with one missing, all after it belong to somebody else.",
  source: "the language",
  bad: "team Pier Nine\n  Ada woman\n  Olu man\nability  Ada  Olu\n  «box jump unbroken 20 reps»\n",
  good: "team Pier Nine\n  Ada woman\n  Olu man\nability  Ada  Olu\n  box jump unbroken 20 - reps\n",
  check: metEarlier("row-length"),
  message: (values) =>
    `This row has ${counted(values.cells, "cell")} for ${counted(values.athletes, "athlete")}. Write - where a number is not known.`,
};
