import { categoryWord } from "../../3-plan/event.js";
import { problem } from "../../0-base/problem.js";
import { categoryIn, turnsOf } from "../../3-plan/plan.js";
import { kelpStreet } from "../examples.js";
import { simulatedPlan } from "../nodes.js";
import { always, type Rule } from "../rule.js";

declare module "../../0-base/problem.js" {
  interface ProblemValues {
    "wrong-window": { who: readonly string[]; category: string };
  }
}

export const wrongWindow: Rule<"wrong-window"> = {
  id: "wrong-window",
  severity: always("error"),
  title: "Work in another category's window",
  why: "Reps outside one's own window do not count.",
  source: "the event",
  bad: `${kelpStreet}event Shift\n  score reps\n  window 20 s for women\n  window 20 s for men\n  stage box jump\nplan P for Shift\n  window women\n    Ines 4\n    «Bram 4»\n  window men\n    Tariq 4\n`,
  good: `${kelpStreet}event Shift\n  score reps\n  window 30 s for women\n  window 30 s for men\n  stage box jump\nplan P for Shift\n  window women\n    Ines 4\n    Marta 4\n  window men\n    Tariq 4\n    Bram 4\n`,
  check: (judged) => {
    const simulated = simulatedPlan(judged);
    if (!simulated) return [];
    const { plan, spanOf } = simulated;
    const outside = turnsOf(plan.steps.filter(({ kind }) => kind !== "window")).slice(0, plan.event.windows.length > 0 ? 1 : 0);
    const nowhere = outside.map(({ id, who }) => problem("wrong-window", spanOf(id), { who, category: "" }));
    return [
      ...nowhere,
      ...plan.steps.flatMap((step) => {
        const window = step.kind === "window" ? plan.event.windows[step.window] : undefined;
        if (step.kind !== "window" || !window) return [];
        return turnsOf(step.body).flatMap((turn) => {
          const foreign = turn.who.filter((name) => categoryIn(plan.team, name) !== window.category);
          return foreign.length > 0
            ? [problem("wrong-window", spanOf(turn.id), { who: foreign, category: categoryWord(window.category) })]
            : [];
        });
      }),
    ];
  },
  message: (values) =>
    values.category === ""
      ? `${values.who.join(" and ")} work in no window, and this event has some. Put the turns under “window women” or “window men”.`
      : `${values.who.join(" and ")} may not work in this window: it is for ${values.category}. Put the turn into the other one.`,
};
