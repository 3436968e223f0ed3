import { type Problem, problem } from "../../0-base/problem.js";
import { clock, plain } from "../../0-base/quantity.js";
import { limitsInForce } from "../../3-plan/limits.js";
import type { Timeline, TurnRun } from "../../4-timeline/timeline.js";
import { pierNine } from "../examples.js";
import { byPublisher, limitValues } from "../limits.js";
import { lineBefore } from "../lines.js";
import { simulatedPlan } from "../nodes.js";
import { amount, type Rule, text } from "../rule.js";

export const restShort: Rule = {
  id: "rest-short",
  severity: byPublisher,
  title: "A rest shorter than the rule",
  why: "The next set comes out of a reserve that is not back yet.",
  source: "the rule; the rest is the timeline's",
  bad: `${pierNine}event Sprint\n  handover 3 s\n  stage 15 box jump\nplan P for Sprint\n  rule rest at least 20 s between sets\n  Ada 5\n  Olu 5\n  «Ada 5»\n`,
  good: `${pierNine}event Sprint\n  handover 3 s\n  stage 15 box jump\nplan P for Sprint\n  rule rest at least 16 s between sets\n  Ada 5\n  Olu 5\n  Ada 5\n`,
  check: (judged) => {
    const simulated = simulatedPlan(judged);
    const limit = simulated && limitsInForce(simulated.sources, "rest at least")[0];
    if (!simulated || !limit) return [];
    const { timeline, spanOf } = simulated;
    const found = new Map<number, Problem>();
    for (const { name } of timeline.athletes) {
      const runs = timeline.turns.filter(({ athletes }) => athletes.some((one) => one.name === name));
      runs.forEach((run, at) => {
        const before = runs[at - 1];
        const restedS = before ? run.startS - workedUntil(before, name, timeline) : Number.POSITIVE_INFINITY;
        if (restedS >= limit.value - 1e-6 || found.has(run.step)) return;
        const wait = Math.ceil(limit.value - restedS);
        const fix = { title: `rest ${wait} s before`, edits: [lineBefore(judged.text, spanOf(run.step), `rest ${wait} s`)] };
        found.set(run.step, problem("rest-short", spanOf(run.step), { athlete: name, restedS, atS: run.startS, ...limitValues(limit) }, [fix]));
      });
    }
    return [...found.values()];
  },
  message: (values) => `${text(values, "athlete")} rests ${plain(amount(values, "restedS"))} s before ${clock(amount(values, "atS"))}; the rule wants ${plain(amount(values, "limit"))} s (${text(values, "by")}). Let somebody else go first, or add a rest.`,
};

/** When an athlete's own work of a turn ends. */
function workedUntil({ startS, endS }: TurnRun, name: string, { segments }: Timeline): number {
  const own = segments.filter((one) => one.athlete === name && one.activity === "work" && one.startS >= startS - 1e-6 && one.startS < endS);
  return Math.max(startS, ...own.map((one) => one.endS));
}
