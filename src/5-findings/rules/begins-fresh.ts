import { problem } from "../../0-base/problem.js";
import { subjectKey } from "../../3-plan/names.js";
import { pierNine } from "../examples.js";
import { simulatedPlan } from "../nodes.js";
import { always, either, type Rule } from "../rule.js";

declare module "../../0-base/problem.js" {
  interface ProblemValues {
    "begins-fresh": { movements: readonly string[]; all: boolean };
  }
}

const event =
  "ability  Ada  Olu\n  step  unbroken  20  24  reps\n  step  cycle  2  2  s\nevent Double\n  stage jumps  10 box jump\n  stage steps  8 step\n";
const plan = "plan P for Double»\n  stage jumps\n    Ada 5\n    Olu 5\n  stage steps\n    Ada 4\n    Olu 4\n";

export const beginsFresh: Rule<"begins-fresh"> = {
  id: "begins-fresh",
  severity: always("note"),
  title: "Movements that do not tire one another",
  why: "What one movement costs the next is only known where both say what they ask of the body.",
  source: "the model of what one piece of work costs another",
  bad: `${pierNine}${event}«${plan}`,
  good: `${pierNine}${event}movement box jump\n  asks squat 60 %, engine 40 %\nmovement step\n  asks squat 50 %, engine 50 %\n${plan.replace("»", "")}`,
  check: (judged) => {
    const simulated = simulatedPlan(judged);
    if (!simulated) return [];
    const { movements } = judged.evaluation.world;
    const named = simulated.plan.event.stages.flatMap(({ items }) => items.map(({ movement }) => movement));
    const subjects = [...new Map(named.map((movement) => [subjectKey(movement), movement])).values()];
    const silent = subjects.filter((movement) => (movements.get(subjectKey(movement))?.asks.size ?? 0) === 0);
    const all = silent.length === subjects.length;
    // Where none says anything, as in most first notebooks, only stages are worth a word.
    const tells = all ? simulated.plan.event.stages.length > 1 : silent.length > 0;
    return subjects.length > 1 && tells ? [problem("begins-fresh", judged.line.span, { movements: silent, all })] : [];
  },
  message: (values) => {
    const silent = values.movements;
    const [does, it] = silent.length === 1 ? ["does", "it asks"] : ["do", "they ask"];
    const who = values.all ? "Nobody is tired by one movement for the next here" : "Not every movement tires for the next here";
    return `${who}: ${either(silent, "and")} ${does} not say what ${it} of the body. Write a movement line with asks for each.`;
  },
};
