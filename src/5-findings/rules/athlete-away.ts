import { always, type Rule, text } from "../rule.js";
import { faulty } from "../week-rule.js";

const ground = "team Pier Nine\n  Ada woman\n  Olu man\nevent Sprint\n  cap 5 min\n  stage 5 jump\nweek One\n  Ada away 2026-03-20\n";

export const athleteAway: Rule = {
  id: "athlete-away",
  severity: always("error"),
  title: "An event while one of the team is away",
  why: "The plan counts on everyone in it.",
  source: "the week",
  bad: `${ground}  «2026-03-20 10:00  Sprint»\n`,
  good: `${ground}  2026-03-21 10:00  Sprint\n`,
  check: faulty("athlete-away", "away", ({ athlete }) => ({ athlete })),
  message: (values) => `${text(values, "athlete")} is away then. Move the event, or plan it without ${text(values, "athlete")}.`,
};
