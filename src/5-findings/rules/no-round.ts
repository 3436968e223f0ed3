import { always, metEarlier, type Rule } from "../rule.js";

declare module "../../0-base/problem.js" {
  interface ProblemValues {
    "no-round": { event: string; stage: string };
  }
}

const ground =
  "team Pier Nine\n  Ada woman\nability  Ada\n  box jump unbroken 20 reps\n  box jump cycle 2 s\nevent Sprint\n  stage 5 box jump\nplan Simple for Sprint\n  Ada 5\n";

export const noRound: Rule<"no-round"> = {
  id: "no-round",
  severity: always("error"),
  title: "A round in an event without rounds",
  why: "What a round is stands in the event.",
  source: "the language",
  bad: `${ground}  «Ada round»\n`,
  good: ground,
  check: metEarlier("no-round"),
  message: (values) => `${values.event} has no round in stage ${values.stage}. Write a number of reps instead.`,
};
