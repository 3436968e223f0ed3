import { problem } from "../../0-base/problem.js";
import { percent } from "../../0-base/quantity.js";
import { kelpStreet } from "../examples.js";
import { byPublisher, limitValues, type LimitValues } from "../limit-values.js";
import { everyoneHolds } from "../limits/everyone-holds.js";
import { holdShareWithin } from "../limits/hold-share-within.js";
import { broken, simulatedPlan } from "../nodes.js";
import { type Rule } from "../rule.js";

declare module "../../0-base/problem.js" {
  interface ProblemValues {
    "hold-uneven": LimitValues & ({ athlete: string; none: true } | { athlete: string; none: false; share: number; even: number });
  }
}

export const holdUneven: Rule<"hold-uneven"> = {
  id: "hold-uneven",
  severity: byPublisher,
  title: "Holding time shared unevenly",
  why: "Who holds most has the least grip left for what follows.",
  source: "the event",
  bad: `${kelpStreet}event Sprint\n  stage 20 box jump while 1 hold stone\n  rule everyone holds\n«plan P for Sprint»\n  Ines 5 while Marta hold\n  Marta 5 while Ines hold\n  Ines 5 while Tariq hold\n  Bram 5 while Ines hold\n`,
  good: `${kelpStreet}event Sprint\n  stage 20 box jump while 1 hold stone\n  rule everyone holds\nplan P for Sprint\n  Ines 5 while Marta hold\n  Marta 5 while Ines hold\n  Ines 5 while Tariq hold\n  Ines 5 while Bram hold\n`,
  check: (judged) => {
    const simulated = simulatedPlan(judged);
    if (!simulated) return [];
    const none = broken(simulated, everyoneHolds).map(({ who, limit }) =>
      problem("hold-uneven", judged.line.span, { athlete: who, none: true, ...limitValues(limit) }),
    );
    const uneven = broken(simulated, holdShareWithin).map(({ who, value, due, limit }) =>
      problem("hold-uneven", judged.line.span, { athlete: who, none: false, share: value, even: due, ...limitValues(limit) }),
    );
    return [...none, ...uneven];
  },
  message: (values) =>
    values.none
      ? `${values.athlete} never holds, and the rule wants everyone to (${values.by}). Give ${values.athlete} a turn on the hold.`
      : `${values.athlete} has ${percent(values.share)} of the holding time; an even share is ${percent(values.even)}, within ${percent(values.limit)} (${values.by}). Change who holds.`,
};
