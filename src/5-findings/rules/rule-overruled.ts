import { problem } from "../../0-base/problem.js";
import { kelpStreet } from "../examples.js";
import { limitKinds } from "../limits/kinds.js";
import { inForce, readLimit, whoseIs } from "../limits/limit.js";
import { simulatedPlan } from "../nodes.js";
import { always, type Rule } from "../rule.js";

declare module "../../0-base/problem.js" {
  interface ProblemValues {
    "rule-overruled": { by: string };
  }
}

export const ruleOverruled: Rule<"rule-overruled"> = {
  id: "rule-overruled",
  severity: always("note"),
  title: "A rule that a stricter one overrules",
  why: "Of two rules about the same thing the stricter counts.",
  source: "the language",
  bad: `${kelpStreet}event Sprint\n  stage 10 box jump\n  rule turn at most 30 s\nplan P for Sprint\n  «rule turn at most 60 s»\n  Ines 2\n  Marta 2\n  Bram 3\n  Tariq 3\n`,
  good: `${kelpStreet}event Sprint\n  stage 10 box jump\n  rule turn at most 60 s\nplan P for Sprint\n  rule turn at most 30 s\n  Ines 2\n  Marta 2\n  Bram 3\n  Tariq 3\n`,
  check: (judged) => {
    const simulated = simulatedPlan(judged);
    if (!simulated) return [];
    return simulated.plan.rules.flatMap((line) => {
      const limit = readLimit(line, limitKinds);
      if (!limit) return [];
      const strictest = inForce(simulated.sources, limit.kind).find(({ who }) => who === whoseIs(limit, judged.evaluation.world.athletes));
      if (!strictest || strictest.value === limit.value) return [];
      return [problem("rule-overruled", line.span, { by: strictest.by })];
    });
  },
  message: (values) => `The rule of ${values.by} is stricter and counts. Take this line out, or make it the stricter one.`,
};
