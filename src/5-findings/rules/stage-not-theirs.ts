import { problem, type ProblemOf } from "../../0-base/problem.js";
import { categoryWord } from "../../3-plan/event.js";
import { categoryIn, turnsOf } from "../../3-plan/plan.js";
import { kelpStreet } from "../examples.js";
import { simulatedPlan } from "../nodes.js";
import { always, type Rule } from "../rule.js";

declare module "../../0-base/problem.js" {
  interface ProblemValues {
    "stage-not-theirs": { who: readonly string[]; stage: string; category: string };
  }
}

export const stageNotTheirs: Rule<"stage-not-theirs"> = {
  id: "stage-not-theirs",
  severity: always("error"),
  title: "Work at a stage that is the others'",
  why: "Where the event gives a stage to the women or to the men, reps of the others do not count.",
  source: "the event",
  bad: `${kelpStreet}event Drill\n  stage low 10 box jump for women\n  stage high 10 box jump for men\nplan P for Drill\n  stage low\n    Ines 5\n    «Bram 1»\n    Marta 4\n  stage high\n    Bram 5\n    Tariq 5\n`,
  good: `${kelpStreet}event Drill\n  stage low 10 box jump for women\n  stage high 10 box jump for men\nplan P for Drill\n  stage low\n    Ines 5\n    Marta 5\n  stage high\n    Bram 5\n    Tariq 5\n`,
  check: (judged) => {
    const simulated = simulatedPlan(judged);
    if (!simulated) return [];
    const { plan, timeline, spanOf } = simulated;
    return turnsOf(plan.steps).flatMap(({ id, who }): readonly ProblemOf<"stage-not-theirs">[] => {
      const run = timeline.turns.find(({ step }) => step === id);
      const stage = run && plan.event.stages[run.stage];
      if (!stage?.category) return [];
      const foreign = who.filter((name) => categoryIn(plan.team, name) !== stage.category);
      const values = { who: foreign, stage: stage.name, category: categoryWord(stage.category) };
      return foreign.length > 0 ? [problem("stage-not-theirs", spanOf(id), values)] : [];
    });
  },
  message: (values) =>
    `${values.who.join(" and ")} may not work at ${values.stage}: it is for ${values.category}. Give the turn to one of them.`,
};
