import { problem } from "../../0-base/problem.js";
import { counted, percent, toldApart } from "../../0-base/quantity.js";
import { kelpStreet } from "../examples.js";
import { byPublisher, limitValues, type LimitValues } from "../limit-values.js";
import { eachAtLeast } from "../limits/each-at-least.js";
import { everyoneWorks, inEveryStage } from "../limits/everyone-works.js";
import { shareAtLeastLimit as shareAtLeastLimit } from "../limits/share-at-least.js";
import { broken, simulatedPlan } from "../nodes.js";
import { type Rule } from "../rule.js";

declare module "../../0-base/problem.js" {
  interface ProblemValues {
    "share-at-least": LimitValues & { athlete: string; stage: string; done: number; share: boolean };
  }
}

export const shareAtLeast: Rule<"share-at-least"> = {
  id: "share-at-least",
  severity: byPublisher,
  title: "Somebody who does too little",
  why: "The rule wants a least share of each, whatever the others do.",
  source: "the event",
  bad: `${kelpStreet}event Sprint\n  stage 40 box jump\n  rule each at least 8 reps\n«plan P for Sprint»\n  Ines 14\n  Marta 6\n  Bram 10\n  Tariq 10\n`,
  good: `${kelpStreet}event Sprint\n  stage 40 box jump\n  rule each at least 8 reps\nplan P for Sprint\n  Ines 12\n  Marta 8\n  Bram 10\n  Tariq 10\n`,
  check: (judged) => {
    const simulated = simulatedPlan(judged);
    if (!simulated) return [];
    const found = [
      ...broken(simulated, eachAtLeast, everyoneWorks, inEveryStage).map((breach) => ({ ...breach, share: false })),
      ...broken(simulated, shareAtLeastLimit).map((breach) => ({ ...breach, share: true })),
    ];
    return found.map(({ who, value, limit, due, share, stage, step }) =>
      problem("share-at-least", stage === null ? judged.line.span : simulated.spanOf(step), {
        athlete: who,
        done: value,
        share,
        stage: stage === null ? "" : (simulated.plan.event.stages[stage]?.name ?? ""),
        ...limitValues(limit),
        limit: due,
      }),
    );
  },
  message: (values) => {
    const show = (of: number, digits: number): string => (values.share ? percent(of, digits) : counted(of, "rep"));
    const [done, wanted] = toldApart(values.done, values.limit, show, 0);
    const of = values.stage === "" ? "" : ` of ${values.stage}`;
    return `${values.athlete} does ${done}${of}; the rule wants at least ${wanted} (${values.by}). Give ${values.athlete} larger or more turns.`;
  },
};
