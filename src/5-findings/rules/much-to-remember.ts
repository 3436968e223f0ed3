import { problem } from "../../0-base/problem.js";
import { mostToRemember, thingsToRemember } from "../../3-plan/remember.js";
import { pierNine } from "../examples.js";
import { always, type Rule } from "../rule.js";

declare module "../../0-base/problem.js" {
  interface ProblemValues {
    "much-to-remember": { athlete: string; things: number };
  }
}

const ground = `${pierNine}event Sprint\n  cap 20 min\n  stage 60 box jump\n`;

export const muchToRemember: Rule<"much-to-remember"> = {
  id: "much-to-remember",
  severity: always("note"),
  title: "More than a tired head keeps",
  why: "A plan that is not in four tired heads is worth nothing, however good it is on paper.",
  source: "common practice, no source: nine things an athlete",
  bad: `${ground}plan «P» for Sprint\n  Ada 8\n  Olu 8\n  Ada 7\n  Olu 7\n  Ada 6\n  Olu 6\n  Ada 5\n  Olu 5\n  Ada 4\n  rest 5 s\n  Ada 3\n  rest 6 s\n  Ada 1\n  rest 7 s\n`,
  good: `${ground}plan P for Sprint\n  repeat\n    Ada 4\n    rest 10 s\n    Olu 4\n    rest 10 s\n`,
  check: ({ plan }) => {
    const spec = plan?.resolved.plan;
    if (!plan || !spec) return [];
    const [most] = spec.team.athletes
      .map(({ name }) => ({ name, things: thingsToRemember(spec, name) }))
      .sort((a, b) => b.things - a.things);
    return most && most.things > mostToRemember
      ? [problem("much-to-remember", plan.resolved.line.name.span, { athlete: most.name, things: most.things })]
      : [];
  },
  message: (values) =>
    `${values.athlete} has ${values.things} things to remember here; more than ${mostToRemember} do not stay in a tired head. Repeat a few lines instead, or ask for plans: the simplest one says what being short costs.`,
};
