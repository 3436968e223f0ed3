import { problem } from "../../0-base/problem.js";
import { readLog } from "../../3-plan/log.js";
import { turnsOf } from "../../3-plan/plan.js";
import { always, type Rule } from "../rule.js";

declare module "../../0-base/problem.js" {
  interface ProblemValues {
    "log-hold": { athlete: string; plan: string };
  }
}

const ground =
  "team Pier Nine\n  Ada woman\n  Olu man\nability  Ada  Olu\n  box jump unbroken 20 20 reps\n  box jump cycle 2 2 s\n  stone hold 80 90 s\nevent Sprint\n  stage 20 box jump while 1 hold stone\nplan P for Sprint\n  Ada 20 while Olu hold\n";

export const logHold: Rule<"log-hold"> = {
  id: "log-hold",
  severity: always("warning"),
  title: "A dropped hold of somebody who never holds",
  why: "Either the log or the plan is not the one that was done, and whose hold failed is learnt for the wrong one.",
  source: "the plan",
  bad: `${ground}log P on 2026-03-23\n  «Ada dropped the hold at 0:40»\n`,
  good: `${ground}log P on 2026-03-23\n  Olu dropped the hold at 0:40\n`,
  check: ({ line, evaluation }) => {
    if (line.kind !== "log") return [];
    const plan = evaluation.named(line.plan.text)?.resolved.plan;
    if (!plan) return [];
    const holders = new Set(turnsOf(plan.steps).flatMap((turn) => turn.holders));
    return readLog(line, evaluation.world.athletes).seen.flatMap((one) =>
      one.kind === "dropped" && evaluation.world.athletes.has(one.athlete) && !holders.has(one.athlete)
        ? [problem("log-hold", one.span, { athlete: one.athlete, plan: line.plan.text })]
        : [],
    );
  },
  message: ({ athlete, plan }) => `${athlete} never holds in ${plan}. Check who dropped it, or the plan the log names.`,
};
