import { problem, type ProblemOf } from "../../0-base/problem.js";
import { counted } from "../../0-base/quantity.js";
import type { StageSpec } from "../../3-plan/event.js";
import { turnsOf } from "../../3-plan/plan.js";
import { askedIn } from "../../4-timeline/shared-round.js";
import { pierNine } from "../examples.js";
import { type Simulated, simulatedPlan } from "../nodes.js";
import { always, type Rule } from "../rule.js";

declare module "../../0-base/problem.js" {
  interface ProblemValues {
    "round-out-of-order": { left: number; wanted: string; done: string };
  }
}

const event =
  "ability  Ada  Olu\n  step  unbroken  20  24  reps\n  step  cycle  2  2  s\nevent Drill\n  score reps\n  cap 3 min\n  round\n    5 box jump\n    4 step\n";

export const roundOutOfOrder: Rule<"round-out-of-order"> = {
  id: "round-out-of-order",
  severity: always("error"),
  title: "A round that is not done as the event wants it",
  why: "All items of a round come in their order before the next begins: reps out of it do not count.",
  source: "the event",
  bad: `${pierNine}${event}plan P for Drill\n  Ada 5 box jump\n  «Olu 5 box jump»\n`,
  good: `${pierNine}${event}plan P for Drill\n  Ada 5 box jump\n  Olu 4 step\n  Ada round\n`,
  check: (judged) => {
    const simulated = simulatedPlan(judged);
    return simulated ? simulated.plan.event.stages.flatMap((stage, at) => (stage.rounds ? outOfOrder(stage, at, simulated) : [])) : [];
  },
  message: (values) =>
    `The round wants ${counted(values.left, "rep")} of ${values.wanted} next; this turn does ${values.done}. Write round, or its items in their order.`,
};

/** The first turn of a stage of rounds that does something else than the round wants next. */
function outOfOrder(
  { items }: StageSpec,
  stage: number,
  { plan, timeline, spanOf }: Simulated,
): readonly ProblemOf<"round-out-of-order">[] {
  const turns = new Map(turnsOf(plan.steps).map((turn) => [turn.id, turn]));
  let [at, done] = [0, 0];
  for (const run of timeline.turns.filter((one) => one.stage === stage).sort((a, b) => a.startS - b.startS)) {
    const turn = turns.get(run.step);
    const item = items[at];
    const [work] = turn?.works ?? [];
    if (!turn || !item || !work) continue;
    const whole = turn.rounds !== null;
    const asked = askedIn(item, turn);
    if (whole ? at > 0 || done > 0 : work.movement !== item.movement) {
      return [
        problem("round-out-of-order", spanOf(run.step), {
          wanted: item.movement,
          left: asked - done,
          done: whole ? "a round" : work.movement,
        }),
      ];
    }
    if (whole) continue;
    done += run.repEndsS.length;
    if (done > asked)
      return [
        problem("round-out-of-order", spanOf(run.step), {
          wanted: items[(at + 1) % items.length]?.movement ?? "",
          left: items[(at + 1) % items.length]?.count ?? 1,
          done: `more ${work.movement} than the ${asked} of a round`,
        }),
      ];
    if (done === asked) [at, done] = [(at + 1) % items.length, 0];
  }
  return [];
}
