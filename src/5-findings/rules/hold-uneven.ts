import { problem } from "../../0-base/problem.js";
import { percent } from "../../0-base/quantity.js";
import { limitsInForce } from "../../3-plan/limits.js";
import { kelpStreet } from "../examples.js";
import { byPublisher, limitValues } from "../limits.js";
import { simulatedPlan } from "../nodes.js";
import { amount, type Rule, text } from "../rule.js";

export const holdUneven: Rule = {
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
    const { timeline: { athletes }, sources } = simulated;
    const all = athletes.reduce((sum, { hold }) => sum + hold, 0);
    if (all === 0) return [];
    const none = limitsInForce(sources, "everyone holds").flatMap((limit) =>
      athletes.filter(({ hold }) => hold === 0).map(({ name }) => problem("hold-uneven", judged.line.span, { athlete: name, none: true, ...limitValues(limit) })),
    );
    const uneven = limitsInForce(sources, "hold share within").flatMap((limit) => {
      const worst = athletes.map(({ name, hold }) => ({ name, share: hold / all })).reduce((a, b) => (Math.abs(b.share - 1 / athletes.length) > Math.abs(a.share - 1 / athletes.length) ? b : a));
      if (Math.abs(worst.share - 1 / athletes.length) <= limit.value + 1e-9) return [];
      return [problem("hold-uneven", judged.line.span, { athlete: worst.name, none: false, share: worst.share, even: 1 / athletes.length, ...limitValues(limit) })];
    });
    return [...none, ...uneven];
  },
  message: (values) =>
    values.none === true
      ? `${text(values, "athlete")} never holds, and the rule wants everyone to (${text(values, "by")}). Give ${text(values, "athlete")} a turn on the hold.`
      : `${text(values, "athlete")} has ${percent(amount(values, "share"))} of the holding time; an even share is ${percent(amount(values, "even"))}, within ${percent(amount(values, "limit"))} (${text(values, "by")}). Change who holds.`,
};
