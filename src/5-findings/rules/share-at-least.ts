import { problem } from "../../0-base/problem.js";
import { percent } from "../../0-base/quantity.js";
import { limitsInForce } from "../../3-plan/limits.js";
import { kelpStreet } from "../examples.js";
import { byPublisher, limitValues } from "../limits.js";
import { simulatedPlan } from "../nodes.js";
import { amount, type Rule, text } from "../rule.js";

export const shareAtLeast: Rule = {
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
    const { timeline, sources } = simulated;
    const reps = limitsInForce(sources, "each at least").flatMap((limit) =>
      timeline.athletes.filter((one) => one.reps < limit.value).map((one) => ({ ...one, limit, share: false })),
    );
    const shares = limitsInForce(sources, "share at least").flatMap((limit) =>
      timeline.athletes.filter((one) => one.name === limit.who && one.share < limit.value - 1e-9).map((one) => ({ name: one.name, reps: one.share, limit, share: true })),
    );
    return [...reps, ...shares].map(({ name, reps: done, limit, share }) => problem("share-at-least", judged.line.span, { athlete: name, done, share, ...limitValues(limit) }));
  },
  message: (values) => {
    const show = (of: number): string => (values.share === true ? percent(of) : `${of} reps`);
    return `${text(values, "athlete")} does ${show(amount(values, "done"))}; the rule wants at least ${show(amount(values, "limit"))} (${text(values, "by")}). Give ${text(values, "athlete")} larger or more turns.`;
  },
};
