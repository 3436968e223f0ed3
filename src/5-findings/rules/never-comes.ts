import { problem } from "../../0-base/problem.js";
import { clock, counted } from "../../0-base/quantity.js";
import { turnsOf } from "../../3-plan/plan.js";
import { pierNine } from "../examples.js";
import { simulatedPlan } from "../nodes.js";
import { always, type Rule } from "../rule.js";
import { isOver, stepsIn, typedIn } from "../typed-total.js";

declare module "../../0-base/problem.js" {
  interface ProblemValues {
    "never-comes": { others: number; atS: number };
  }
}

export const neverComes: Rule<"never-comes"> = {
  id: "never-comes",
  severity: always("warning"),
  title: "A turn that never comes",
  why: "What stands in the plan and is never done is learnt for nothing, and its reps are missing.",
  source: "the timeline",
  bad: `${pierNine}event Drill\n  score reps\n  cap 1 min\n  stage box jump\nplan P for Drill\n  Ada 6\n  Olu 6\n  rest 50 s\n  «Ada 6»\n`,
  good: `${pierNine}event Drill\n  score reps\n  cap 1 min\n  stage box jump\nplan P for Drill\n  Ada 6\n  Olu 6\n  rest 5 s\n  Ada 6\n`,
  check: (judged) => {
    const simulated = simulatedPlan(judged);
    if (!simulated) return [];
    const { plan, timeline, spanOf } = simulated;
    const byTime = plan.event.score === "time";
    // What a plan for time that is not done leaves out is told at the cap.
    if (byTime && !timeline.score.finished) return [];
    const begun = new Set(timeline.turns.map(({ step }) => step));
    const over = plan.event.stages.flatMap(({ target }, stage) =>
      byTime && target !== null && isOver(typedIn(plan, stage), target) ? turnsOf(stepsIn(plan, stage)) : [],
    );
    const told = new Set(over.map(({ id }) => id));
    const [first, ...others] = turnsOf(plan.steps).filter(({ id }) => !begun.has(id) && !told.has(id));
    return first ? [problem("never-comes", spanOf(first.id), { atS: timeline.endS, others: others.length })] : [];
  },
  message: (values) => {
    const others = values.others;
    const also = others > 0 ? `, nor ${others === 1 ? "does" : "do"} ${counted(others, "turn")} more` : "";
    return `This turn never comes${also}: the plan is at its end at ${clock(values.atS)}. Rest less before it, put it earlier, or take it out.`;
  },
};
