import { type Problem, problem } from "../../0-base/problem.js";
import { clock } from "../../0-base/quantity.js";
import type { TurnRun } from "../../4-timeline/timeline.js";
import { kelpStreet } from "../examples.js";
import { type Simulated, simulatedPlan } from "../nodes.js";
import { always, amount, either, list, type Rule } from "../rule.js";

export const notAlternating: Rule = {
  id: "not-alternating",
  severity: always("error"),
  title: "The same pair twice running where pairs take turns",
  why: "The event has the pairs take turns: what one does out of turn does not count.",
  source: "the event",
  bad: `${kelpStreet}event Sprint\n  pairs alternate\n  stage 30 box jump\nplan P for Sprint\n  pair A  Ines + Bram\n  pair B  Marta + Tariq\n  A 5 each\n  «A 5 each»\n  B 5 each\n`,
  good: `${kelpStreet}event Sprint\n  pairs alternate\n  stage 30 box jump\nplan P for Sprint\n  pair A  Ines + Bram\n  pair B  Marta + Tariq\n  A 5 each\n  B 5 each\n  A 5 each\n`,
  check: (judged) => {
    const simulated = simulatedPlan(judged);
    return simulated?.plan.event.alternate ? outOfTurn(simulated) : [];
  },
  message: (values) => `${either(list(values, "who"), "and")} work again at ${clock(amount(values, "atS"))}, straight after their own turn; the event has the pairs take turns. Give this turn to the others.`,
};

/** The first turn of each line whose workers are those of the turn before. */
function outOfTurn({ timeline, spanOf }: Simulated): readonly Problem[] {
  const found = new Map<number, Problem>();
  const inOrder = [...timeline.turns].sort((a, b) => a.startS - b.startS);
  const cast = ({ athletes }: TurnRun): string => athletes.map(({ name }) => name).sort().join(" ");
  inOrder.forEach((run, at) => {
    const before = inOrder[at - 1];
    if (!before || cast(before) !== cast(run) || found.has(run.step)) return;
    found.set(run.step, problem("not-alternating", spanOf(run.step), { who: run.athletes.map(({ name }) => name), atS: run.startS }));
  });
  return [...found.values()];
}
