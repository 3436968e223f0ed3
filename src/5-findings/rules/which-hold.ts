import { always, metEarlier, type Rule } from "../rule.js";

declare module "../../0-base/problem.js" {
  interface ProblemValues {
    "which-hold": {};
  }
}

const ground =
  "team Pier Nine\n  Ada woman\n  Olu man\nability  Ada  Olu\n  box jump unbroken 20 20 reps\n  box jump cycle 2 2 s\n  stone hold 60 60 s\nevent Sprint\n  stage 5 box jump\nplan Simple for Sprint\n";

export const whichHold: Rule<"which-hold"> = {
  id: "which-hold",
  severity: always("error"),
  title: "A hold that the event does not name",
  why: "What is held decides how long it lasts.",
  source: "the language",
  bad: `${ground}  Ada 5 «while Olu hold»\n`,
  good: `${ground}  Ada 5 while Olu hold stone\n`,
  check: metEarlier("which-hold"),
  message: () => "What is held? The event asks for no hold here, so name it: while … hold stone.",
};
