import { problem } from "../../0-base/problem.js";
import { clock, counted, plain } from "../../0-base/quantity.js";
import type { EventSpec } from "../../3-plan/event.js";
import { turnsOf } from "../../3-plan/plan.js";
import { pierNine } from "../examples.js";
import { simulatedPlan } from "../nodes.js";
import { always, type Rule } from "../rule.js";

declare module "../../0-base/problem.js" {
  interface ProblemValues {
    "hold-drops": { passes: number; atS: number; into: number; athlete: string; hold: string; cost: EventSpec["dropCost"] };
  }
}

export const holdDrops: Rule<"hold-drops"> = {
  id: "hold-drops",
  severity: always("warning"),
  title: "A hold that fails before the turn ends",
  why: "Nothing counts while the hold is down, and a weight that is dropped can hurt someone: never hold on through pain.",
  source: "the three-compartment model of muscle fatigue",
  bad: `${pierNine}event Sprint\n  stage 40 box jump while 1 hold stone\nplan Simple for Sprint\n  Olu 10 while Ada hold\n  «Olu 20 while Ada hold»\n  Ada 10 while Olu hold\n`,
  good: `${pierNine}event Sprint\n  stage 40 box jump while 1 hold stone\nplan Simple for Sprint\n  Olu 10 while Ada hold\n  Ada 10 while Olu hold\n  Olu 10 while Ada hold\n  Ada 10 while Olu hold\n`,
  check: (judged) => {
    const simulated = simulatedPlan(judged);
    if (!simulated) return [];
    const { plan, timeline, spanOf } = simulated;
    return turnsOf(plan.steps).flatMap((turn) => {
      const dropped = timeline.turns.filter(({ step, drops }) => step === turn.id && drops.length > 0);
      const drop = dropped[0]?.drops[0];
      if (!dropped[0] || !drop) return [];
      const values = {
        athlete: drop.athlete,
        hold: turn.hold ?? "hold",
        atS: drop.atS,
        into: drop.atS - dropped[0].startS,
        turnS: dropped[0].endS - dropped[0].startS,
        passes: dropped.length,
        cost: plan.event.dropCost,
      };
      return [problem("hold-drops", spanOf(turn.id), values)];
    });
  },
  message: (values) => {
    const again = values.passes > 1 ? ` It happens in ${values.passes} passes.` : "";
    const { cost } = values;
    const costs = cost
      ? ` By the event's rules each costs ${cost.unit === "s" ? `${plain(cost.amount)} s` : counted(cost.amount, "rep")}.`
      : "";
    return `At ${clock(values.atS)}, ${values.into < 0.5 ? "in the handover before this turn" : `${plain(values.into, 0)} s into this turn`}, ${values.athlete} is expected to drop the ${values.hold}.${again}${costs} Change hands earlier, or rest ${values.athlete} longer before.`;
  },
};
