import { problem, type ProblemOf } from "../../0-base/problem.js";
import { pierNine } from "../examples.js";
import { readLog } from "../../3-plan/log.js";
import { always, type Judged, type Rule } from "../rule.js";

declare module "../../0-base/problem.js" {
  interface ProblemValues {
    "log-total": { athlete: string | null; at: number; planned: number; plan: string };
  }
}

const ground = `${pierNine}event Sprint\n  stage jumps 20 box jump\nplan P for Sprint\n  Ada 10\n  Olu 10\n`;

export const logTotal: Rule<"log-total"> = {
  id: "log-total",
  severity: always("warning"),
  title: "A log with more reps than the plan has",
  why: "Either the log or the plan is not the one that was done.",
  source: "the plan",
  bad: `${ground}log P on 2026-03-23\n  «Ada broke at 14 box jumps»\n`,
  good: `${ground}log P on 2026-03-23\n  Ada broke at 8 box jumps\n`,
  check: tooMany,
  message: (values) =>
    values.athlete === null
      ? `${values.at} reps, but all of ${values.plan} comes to ${values.planned}. Check the number, or the plan the log names.`
      : `${values.athlete} broke at ${values.at}, but does only ${values.planned} reps in ${values.plan}. Check the number, or the plan the log names.`,
};

function tooMany({ line, evaluation }: Judged): readonly ProblemOf<"log-total">[] {
  if (line.kind !== "log") return [];
  const plan = evaluation.named(line.plan.text);
  const athletes = plan?.timeline?.athletes ?? [];
  const stages = plan?.resolved.plan?.event.stages ?? [];
  const all =
    stages.length > 0 ? stages.reduce((sum, { target, rounds }) => sum + (rounds ? Infinity : (target ?? Infinity)), 0) : Infinity;
  return readLog(line, evaluation.world.athletes).seen.flatMap((one) => {
    if (one.kind === "reps" && one.reps > all)
      return [problem("log-total", one.span, { athlete: null, at: one.reps, planned: all, plan: plan?.resolved.plan?.event.name ?? "" })];
    if (one.kind !== "broke") return [];
    const planned = athletes.find(({ name }) => name === one.athlete)?.reps;
    return planned !== undefined && one.after > planned
      ? [problem("log-total", one.span, { athlete: one.athlete, at: one.after, planned, plan: line.plan.text })]
      : [];
  });
}
