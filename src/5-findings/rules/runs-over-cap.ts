import { problem, type ProblemOf } from "../../0-base/problem.js";
import { clock } from "../../0-base/quantity.js";
import { simulate } from "../../4-timeline/simulate.js";
import { oftenPastCap } from "../../4-timeline/spread.js";
import { pierNine } from "../examples.js";
import { type Simulated, simulatedPlan } from "../nodes.js";
import { type Judged, type Rule } from "../rule.js";

declare module "../../0-base/problem.js" {
  interface ProblemValues {
    "runs-over-cap":
      | { capS: number; finishS: number; seldom: true }
      | { capS: number; finishS: number; seldom: false; finished: boolean; stage: string; done: number; target: number };
  }
}

export const runsOverCap: Rule<"runs-over-cap"> = {
  id: "runs-over-cap",
  severity: (values) => (values.seldom ? "note" : "warning"),
  title: "A plan that runs past the cap",
  why: "At the cap the clock stops and the work that is left does not count.",
  source: "the event; the time is the model's",
  bad: `${pierNine}event Sprint\n  cap 1 min\n  stage 40 box jump\n«plan Simple for Sprint»\n  repeat\n    Ada 5\n    Olu 5\n`,
  good: `${pierNine}event Sprint\n  cap 3 min\n  stage 40 box jump\nplan Simple for Sprint\n  repeat\n    Ada 5\n    Olu 5\n`,
  check: (judged) => {
    const simulated = simulatedPlan(judged);
    if (!simulated || simulated.plan.event.score !== "time" || simulated.timeline.capS === null) return [];
    const { plan, timeline, abilities } = simulated;
    const { score } = timeline;
    const capS = timeline.capS ?? 0;
    if (score.finished) return score.value > nearCap * capS ? overOnSomeDays(judged, simulated, score.value) : [];
    if (timeline.stopped !== "cap" || timeline.stages.at(-1)?.target === null) return [];
    const open = simulate(plan, abilities, judged.evaluation.world.constants, { ignoreCap: true });
    const stage = timeline.stages.at(-1);
    const done = stage ? (plan.event.stages[stage.stage]?.rounds ? stage.rounds : stage.reps) : 0;
    const values = {
      seldom: false,
      capS,
      finished: open.score.finished,
      finishS: open.endS,
      stage: stage?.name ?? "",
      done,
      target: stage?.target ?? 0,
    };
    return [problem("runs-over-cap", judged.line.span, values)];
  },
  message: (values) => {
    const { capS, finishS } = values;
    if (values.seldom)
      return `Expected at ${clock(finishS)}, but more than one day in ten runs past the cap of ${clock(capS)}. Find seconds somewhere, or go for it knowing that.`;
    const at = `At the cap (${clock(capS)}) stage ${values.stage} stands at ${values.done} of ${values.target}.`;
    return values.finished ? `${at} Expected finish without a cap: ${clock(finishS)}, ${clock(finishS - capS)} late.` : at;
  },
};

/** Of the cap: a plan that is expected sooner has no such day, with the spread the model knows. */
const nearCap = 0.8;

function overOnSomeDays(
  { line, evaluation }: Judged,
  { plan, abilities }: Simulated,
  finishS: number,
): readonly ProblemOf<"runs-over-cap">[] {
  const past = oftenPastCap(plan, abilities, evaluation.world.constants);
  return past ? [problem("runs-over-cap", line.span, { seldom: true, capS: plan.event.capS ?? 0, finishS })] : [];
}
