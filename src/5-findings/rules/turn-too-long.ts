import { problem } from "../../0-base/problem.js";
import { plain, toldApart } from "../../0-base/quantity.js";
import { pierNine } from "../examples.js";
import { byPublisher, limitValues, type LimitValues } from "../limit-values.js";
import { turnAtMost } from "../limits/turn-at-most.js";
import { broken, simulatedPlan } from "../nodes.js";
import { type Rule } from "../rule.js";

declare module "../../0-base/problem.js" {
  interface ProblemValues {
    "turn-too-long": LimitValues & { seconds: number };
  }
}

export const turnTooLong: Rule<"turn-too-long"> = {
  id: "turn-too-long",
  severity: byPublisher,
  title: "A turn longer than the rule allows",
  why: "Short turns keep the tempo up and the partners warm.",
  source: "the rule; the time is the timeline's",
  bad: `${pierNine}event Sprint\n  stage 20 box jump\nplan P for Sprint\n  rule turn at most 18 s\n  Ada 9\n  «Olu 11»\n`,
  good: `${pierNine}event Sprint\n  stage 20 box jump\nplan P for Sprint\n  rule turn at most 22 s\n  Ada 9\n  Olu 11\n`,
  check: (judged) => {
    const simulated = simulatedPlan(judged);
    if (!simulated) return [];
    return broken(simulated, turnAtMost).map(({ step, value, limit }) =>
      problem("turn-too-long", simulated.spanOf(step), { seconds: value, ...limitValues(limit) }),
    );
  },
  message: (values) => {
    const [takes, allowed] = toldApart(values.seconds, values.limit, plain);
    return `This turn takes ${takes} s; the rule allows ${allowed} s (${values.by}). Make it smaller.`;
  },
};
