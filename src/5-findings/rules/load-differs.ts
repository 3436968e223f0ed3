import { plain } from "../../0-base/quantity.js";
import { pierNine } from "../examples.js";
import { always, metEarlier, type Rule } from "../rule.js";

declare module "../../0-base/problem.js" {
  interface ProblemValues {
    "load-differs": { man: number; woman: number };
  }
}

export const loadDiffers: Rule<"load-differs"> = {
  id: "load-differs",
  severity: always("error"),
  title: "Another load than the event publishes",
  why: "Reps with another load than the published one do not count.",
  source: "the event",
  bad: `${pierNine}event Sprint\n  stage 10 box jump @ 20/15 kg\nplan P for Sprint\n  Ada 5 «@ 10 kg»\n  Olu 5\n`,
  good: `${pierNine}event Sprint\n  stage 10 box jump @ 20/15 kg\nplan P for Sprint\n  Ada 5\n  Olu 5\n`,
  check: metEarlier("load-differs"),
  message: ({ man, woman }) =>
    `The event publishes @ ${man === woman ? plain(man) : `${plain(man)}/${plain(woman)}`} kg here. Leave the load out of the plan.`,
};
