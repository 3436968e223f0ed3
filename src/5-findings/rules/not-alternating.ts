import { problem, type ProblemOf } from "../../0-base/problem.js";
import { clock } from "../../0-base/quantity.js";
import { type PlanSpec, turnsOf } from "../../3-plan/plan.js";
import type { TurnRun } from "../../4-timeline/timeline.js";
import { kelpStreet } from "../examples.js";
import { type Simulated, simulatedPlan } from "../nodes.js";
import { always, either, type Rule } from "../rule.js";

declare module "../../0-base/problem.js" {
  interface ProblemValues {
    "not-alternating": { who: readonly string[]; atS: number; sameRound: boolean };
  }
}

export const notAlternating: Rule<"not-alternating"> = {
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
  message: (values) =>
    values.sameRound
      ? `${either(values.who, "and")} go on with a round at ${clock(values.atS)} that others began; the event has the pairs take turns, round by round. Who begins a round does all of it.`
      : `${either(values.who, "and")} work again at ${clock(values.atS)}, straight after their own turn; the event has the pairs take turns. Give this turn to the others.`,
};

/** The first turn of each line that is not its workers' own: a turn is a round where the stage is made of rounds. */
function outOfTurn({ plan, timeline, spanOf }: Simulated): readonly ProblemOf<"not-alternating">[] {
  const found = new Map<number, ProblemOf<"not-alternating">>();
  const inOrder = [...timeline.turns].sort((a, b) => a.startS - b.startS);
  const cast = ({ athletes }: TurnRun): string =>
    athletes
      .map(({ name }) => name)
      .sort()
      .join(" ");
  const itemOf = itemsOf(plan);
  inOrder.forEach((run, at) => {
    const before = inOrder[at - 1];
    if (!before || found.has(run.step)) return;
    const [item, itemBefore] = [itemOf(run), itemOf(before)];
    const sameRound = item !== null && itemBefore !== null && item > 0 && item >= itemBefore;
    if ((cast(before) === cast(run)) === sameRound) return;
    found.set(
      run.step,
      problem("not-alternating", spanOf(run.step), { who: run.athletes.map(({ name }) => name), atS: run.startS, sameRound }),
    );
  });
  return [...found.values()];
}

/** Which item of its stage's round a turn is; null where it is a whole round, or the stage has none. */
function itemsOf(plan: PlanSpec): (run: TurnRun) => number | null {
  const turns = new Map(turnsOf(plan.steps).map((turn) => [turn.id, turn]));
  return ({ step, stage }) => {
    const [spec, turn] = [plan.event.stages[stage], turns.get(step)];
    if (!spec?.rounds || !turn || turn.rounds !== null) return null;
    return spec.items.findIndex(({ movement }) => movement === turn.works[0]?.movement);
  };
}
