import { pierNine } from "../examples.js";
import { always, metEarlier, type Rule } from "../rule.js";

declare module "../../0-base/problem.js" {
  interface ProblemValues {
    "own-numbers": { how: string };
  }
}

export const ownNumbers: Rule<"own-numbers"> = {
  id: "own-numbers",
  severity: always("error"),
  title: "Two numbers for work that is one",
  why: "In step, or on one implement, both do each rep together: neither can have more of them.",
  source: "the language",
  bad: `${pierNine}event Sprint\n  stage 20 box jump in sync\nplan P for Sprint\n  repeat\n    «Ada 4 + Olu 6»\n`,
  good: `${pierNine}event Sprint\n  stage 20 box jump in sync\nplan P for Sprint\n  repeat\n    Ada + Olu 5\n`,
  check: metEarlier("own-numbers"),
  message: ({ how }) => `This work is ${how}: both do the same number. Write one number for the two.`,
};
