import { pierNine } from "../examples.js";
import { always, type Rule } from "../rule.js";

declare module "../../0-base/problem.js" {
  interface ProblemValues {
    "idle-silence": { rule: string; known: boolean; error: boolean };
  }
}

export const idleSilence: Rule<"idle-silence"> = {
  id: "idle-silence",
  severity: always("note"),
  title: "A silence with nothing to silence",
  why: "A silence that is left behind would hide the next finding of its kind.",
  source: "the language",
  bad: `${pierNine}event Sprint\n  stage 10 box jump\nplan P for Sprint\n  Ada 5  // allow «set-too-long»: she can\n  Olu 5\n`,
  good: `${pierNine}event Drill\n  score reps\n  cap 4 min\n  stage box jump\nplan P for Drill\n  Ada 7  // allow opens-hard: it is a test\n  Olu 6\n`,
  // Found by the judge, which alone knows what the other rules have found.
  check: () => [],
  message: (values) => {
    const rule = values.rule;
    if (values.known !== true) return `There is no rule “${rule}” to allow. rotaline explain lists them.`;
    return values.error
      ? `“${rule}” is an error here, and errors cannot be silenced. Mend it, and take this out.`
      : `Nothing here breaks “${rule}”: take this out.`;
  },
};
