import { problem } from "../../0-base/problem.js";
import { clock, percent } from "../../0-base/quantity.js";
import { limitsInForce } from "../../3-plan/limits.js";
import { pierNine } from "../examples.js";
import { simulatedPlan } from "../nodes.js";
import { always, amount, type Rule, text } from "../rule.js";

/** Fraction of the cap before which nobody should miss; a rule of thumb of the trade, no source. */
const usualShare = 0.9;

export const breaksEarly: Rule = {
  id: "breaks-early",
  severity: always("warning"),
  title: "A miss before the last tenth of the time",
  why: "Who misses early pays for it in every set that follows.",
  source: "a rule of thumb of the trade (common practice, no source)",
  bad: `${pierNine}event Drill\n  score reps\n  cap 3 min\n  stage box jump\nplan P for Drill\n  Ada 6\n  rest 10 s\n  «Ada 19»\n  Olu 6\n`,
  good: `${pierNine}event Drill\n  score reps\n  cap 3 min\n  stage box jump\nplan P for Drill\n  Ada 6\n  rest 10 s\n  Olu 6\n  rest 10 s\n  Ada 6\n`,
  check: (judged) => {
    const simulated = simulatedPlan(judged);
    if (!simulated || simulated.plan.event.score !== "reps" || simulated.timeline.capS === null) return [];
    const { plan, timeline, sources, spanOf } = simulated;
    const [limit] = limitsInForce(sources, "no miss before");
    const share = limit?.value ?? usualShare;
    const dueAt = (atS: number): number => {
      const window = plan.event.windows.find(({ startS, endS }) => startS <= atS && atS < endS);
      return window ? window.startS + share * (window.endS - window.startS) : share * (timeline.capS ?? 0);
    };
    const first = timeline.turns.flatMap(({ step, misses }) => misses.map((miss) => ({ step, miss }))).sort((a, b) => a.miss.atS - b.miss.atS)[0];
    if (!first || first.miss.atS >= dueAt(first.miss.atS)) return [];
    return [problem("breaks-early", spanOf(first.step), { athlete: first.miss.athlete, atS: first.miss.atS, share, dueS: dueAt(first.miss.atS), by: limit?.by ?? "a rule of thumb of the trade" })];
  },
  message: (values) =>
    `${text(values, "athlete")} is expected to miss at ${clock(amount(values, "atS"))}, before ${percent(amount(values, "share"))} of the time is over (${clock(amount(values, "dueS"))}): ${text(values, "by")}. Open with smaller sets.`,
};
