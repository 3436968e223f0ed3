import { always, metEarlier, type Rule } from "../rule.js";

declare module "../../0-base/problem.js" {
  interface ProblemValues {
    "named-twice": { name: string };
  }
}

export const namedTwice: Rule<"named-twice"> = {
  id: "named-twice",
  severity: always("error"),
  title: "An athlete who stands twice in one line",
  why: "One body does one set at a time, and holds once: the second name is somebody else's, or too many.",
  source: "the language",
  bad: "team Pier Nine\n  Ada woman\n  Olu man\nability  Ada  Olu\n  box jump unbroken 20 20 reps\n  box jump cycle 2 2 s\nevent Sprint\n  stage 10 box jump\nplan Simple for Sprint\n  Ada + «Ada» 5 each\n  Olu 5\n",
  good: "team Pier Nine\n  Ada woman\n  Olu man\nability  Ada  Olu\n  box jump unbroken 20 20 reps\n  box jump cycle 2 2 s\nevent Sprint\n  stage 10 box jump\nplan Simple for Sprint\n  Ada + Olu 5 each\n",
  check: metEarlier("named-twice"),
  message: (values) => `${values.name} is named twice in this line. Name somebody else, or take one of the two away.`,
};
