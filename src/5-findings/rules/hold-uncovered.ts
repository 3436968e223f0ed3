import { problem } from "../../0-base/problem.js";
import { pierNine } from "../examples.js";
import { turnsOf } from "../../3-plan/plan.js";
import { simulatedPlan } from "../nodes.js";
import { always, type Rule } from "../rule.js";

declare module "../../0-base/problem.js" {
  interface ProblemValues {
    "hold-uncovered": { holding: number; hold: string; wanted: number };
  }
}

export const holdUncovered: Rule<"hold-uncovered"> = {
  id: "hold-uncovered",
  severity: always("error"),
  title: "Work with nobody on the hold",
  why: "Reps count only while the hold is held: these would have to be done again.",
  source: "the event",
  bad: `${pierNine}event Sprint\n  stage 10 box jump while 1 hold stone\nplan Simple for Sprint\n  «Ada 5»\n  Ada 5 while Olu hold\n`,
  good: `${pierNine}event Sprint\n  stage 10 box jump while 1 hold stone\nplan Simple for Sprint\n  Ada 5 while Olu hold\n  Ada 5 while Olu hold\n`,
  check: (judged) => {
    const simulated = simulatedPlan(judged);
    if (!simulated) return [];
    const { plan, timeline, spanOf } = simulated;
    return turnsOf(plan.steps).flatMap((turn) => {
      const run = timeline.turns.find(({ step }) => step === turn.id);
      const demand = run && plan.event.stages[run.stage]?.hold;
      if (!demand) return [];
      const holding = turn.holders.filter((name) => !turn.who.includes(name)).length;
      if (turn.holders.length >= demand.count) return [];
      return [problem("hold-uncovered", spanOf(turn.id), { hold: demand.hold, wanted: demand.count, holding })];
    });
  },
  message: (values) => {
    const holding = values.holding;
    const who = holding === 0 ? "Nobody holds" : `Only ${holding} hold${holding === 1 ? "s" : ""}`;
    return `${who} the ${values.hold} during this turn; the event wants ${values.wanted}. Add: while … hold.`;
  },
};
