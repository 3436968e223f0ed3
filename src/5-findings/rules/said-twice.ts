import { always, metEarlier, type Rule } from "../rule.js";

declare module "../../0-base/problem.js" {
  interface ProblemValues {
    "said-twice": { what: string; first: string; second: string };
  }
}

export const saidTwice: Rule<"said-twice"> = {
  id: "said-twice",
  severity: always("error"),
  title: "A line that says one thing twice",
  why: "Only one of the two can count, and a reader could not tell which.",
  source: "the language",
  bad: "team Pier Nine\n  Ada woman\n  Olu man\nability  Ada  Olu\n  box jump unbroken 20 20 reps\n  box jump cycle 2 2 s\nevent Sprint\n  stage 10 box jump within 2 min «within 3 min»\n",
  good: "team Pier Nine\n  Ada woman\n  Olu man\nability  Ada  Olu\n  box jump unbroken 20 20 reps\n  box jump cycle 2 2 s\nevent Sprint\n  stage 10 box jump within 3 min\n",
  check: metEarlier("said-twice"),
  message: ({ what, first, second }) =>
    first === second
      ? `The line says “${first}” twice. Take one away.`
      : `The line says ${what} twice, “${first}” and “${second}”. Keep the one that holds.`,
};
