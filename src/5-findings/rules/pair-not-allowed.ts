import { problem, type ProblemOf } from "../../0-base/problem.js";
import { categoryIn, turnsOf } from "../../3-plan/plan.js";
import { kelpStreet } from "../examples.js";
import { simulatedPlan } from "../nodes.js";
import { always, either, type Rule } from "../rule.js";

declare module "../../0-base/problem.js" {
  interface ProblemValues {
    "pair-not-allowed": { who: readonly string[]; wanted: string };
  }
}

export const pairNotAllowed: Rule<"pair-not-allowed"> = {
  id: "pair-not-allowed",
  severity: always("error"),
  title: "A pair that the event does not allow",
  why: "Reps of a pair that may not be a pair do not count.",
  source: "the event",
  bad: `${kelpStreet}event Sprint\n  pairs mixed\n  stage 20 box jump\nplan P for Sprint\n  «pair A  Ines + Marta»\n  pair B  Bram + Tariq\n  A 5 each\n  Ines + Bram 3 each\n  Marta + Tariq 2 each\n`,
  good: `${kelpStreet}event Sprint\n  pairs mixed\n  stage 20 box jump\nplan P for Sprint\n  pair A  Ines + Bram\n  pair B  Marta + Tariq\n  A 5 each\n  B 5 each\n`,
  check: (judged) => {
    const simulated = simulatedPlan(judged);
    if (!simulated || simulated.plan.event.pairs === "any") return [];
    const { plan, spanOf } = simulated;
    const { pairs } = plan.event;
    const found = new Map<string, ProblemOf<"pair-not-allowed">>();
    for (const turn of turnsOf(plan.steps)) {
      if (turn.who.length < 2) continue;
      const categories = new Set(turn.who.map((name) => categoryIn(plan.team, name)));
      if (pairs === (categories.size === 1 ? "alike" : "mixed")) continue;
      const declared = plan.pairs.find(
        ({ athletes }) => athletes.length === turn.who.length && athletes.every((name) => turn.who.includes(name)),
      );
      const key = turn.who.join(" ");
      if (!found.has(key)) found.set(key, problem("pair-not-allowed", declared?.span ?? spanOf(turn.id), { who: turn.who, wanted: pairs }));
    }
    return [...found.values()];
  },
  message: (values) =>
    `${either(values.who, "and")} may not be a pair: the event wants pairs ${values.wanted === "mixed" ? "of a woman and a man" : "of two women or two men"}. Pair them anew.`,
};
