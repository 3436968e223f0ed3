import { always, type Rule } from "../rule.js";
import { faulty } from "../week-rule.js";

declare module "../../0-base/problem.js" {
  interface ProblemValues {
    "athlete-away": { athlete: string };
  }
}

const ground = "team Pier Nine\n  Ada woman\n  Olu man\nevent Sprint\n  cap 5 min\n  stage 5 jump\nweek One\n  Ada away 2026-03-20\n";

export const athleteAway: Rule<"athlete-away"> = {
  id: "athlete-away",
  severity: always("error"),
  title: "An event while one of the team is away",
  why: "The plan counts on everyone in it.",
  source: "the week",
  bad: `${ground}  «2026-03-20 10:00  Sprint»\n`,
  good: `${ground}  2026-03-21 10:00  Sprint\n`,
  check: faulty("athlete-away", "away", ({ athlete }) => ({ athlete })),
  message: (values) => `${values.athlete} is away then. Move the event, or plan it without ${values.athlete}.`,
};
