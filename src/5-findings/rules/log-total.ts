import { type Problem, problem } from "../../0-base/problem.js";
import { pierNine } from "../examples.js";
import { always, amount, type Judged, type Rule, text } from "../rule.js";

const ground = `${pierNine}event Sprint\n  stage jumps 20 box jump\nplan P for Sprint\n  Ada 10\n  Olu 10\n`;

export const logTotal: Rule = {
  id: "log-total",
  severity: always("warning"),
  title: "A log with more reps than the plan has",
  why: "Either the log or the plan is not the one that was done.",
  source: "the plan",
  bad: `${ground}log P on 2026-03-23\n  «Ada broke at 14 box jumps»\n`,
  good: `${ground}log P on 2026-03-23\n  Ada broke at 8 box jumps\n`,
  check: tooMany,
  message: (values) =>
    `${text(values, "athlete")} broke at ${amount(values, "at")}, but does only ${amount(values, "planned")} reps in ${text(values, "plan")}. Check the number, or the plan the log names.`,
};

function tooMany({ line, evaluation }: Judged): readonly Problem[] {
  if (line.kind !== "log") return [];
  const athletes = evaluation.named(line.plan.text)?.timeline?.athletes ?? [];
  return line.body.flatMap((one) => {
    if (one.kind !== "log broke") return [];
    const planned = athletes.find(({ name }) => name === one.athlete.text)?.reps;
    return planned !== undefined && one.at > planned
      ? [problem("log-total", one.span, { athlete: one.athlete.text, at: one.at, planned, plan: line.plan.text })]
      : [];
  });
}
