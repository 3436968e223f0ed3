import { problem, type ProblemOf } from "../../0-base/problem.js";
import { plain } from "../../0-base/quantity.js";
import { subjectKey } from "../../3-plan/names.js";
import { loadFor, turnsOf } from "../../3-plan/plan.js";
import { pierNine } from "../examples.js";
import { simulatedPlan } from "../nodes.js";
import { always, either, type Judged, type Rule } from "../rule.js";

declare module "../../0-base/problem.js" {
  interface ProblemValues {
    "ability-missing": { assumed: readonly string[]; athlete: string; subject: string };
  }
}

export const abilityMissing: Rule<"ability-missing"> = {
  id: "ability-missing",
  severity: always("warning"),
  title: "No test for what a turn asks",
  why: "The plan is then worked out from an assumed athlete, not from yours.",
  source: "the models",
  bad: `${pierNine}event Sprint\n  stage 5 swing\nplan Simple for Sprint\n  «Ada 5»\n`,
  good: `${pierNine}event Sprint\n  stage 10 box jump\nplan Simple for Sprint\n  Ada 5\n  Olu 5\n`,
  check: missing,
  message: (values) => {
    const assumed = values.assumed;
    return `${values.athlete} has no test for ${values.subject} here. Assumed: ${either(assumed, "and")}. Add a row to an ability table.`;
  },
};

/** One finding an athlete and subject, at the first turn that needs it. */
function missing(judged: Judged): readonly ProblemOf<"ability-missing">[] {
  const simulated = simulatedPlan(judged);
  if (!simulated) return [];
  const { plan, abilities, spanOf } = simulated;
  const found = new Map<string, ProblemOf<"ability-missing">>();
  const add = (athlete: string, subject: string, step: number, assumed: readonly string[]): void => {
    const key = `${athlete}\n${subjectKey(subject)}`;
    if (assumed.length > 0 && !found.has(key)) found.set(key, problem("ability-missing", spanOf(step), { athlete, subject, assumed }));
  };
  for (const turn of turnsOf(plan.steps)) {
    for (const athlete of turn.who) {
      for (const { movement, load } of turn.works) {
        const { reserve, origins } = abilities.movement(athlete, movement, loadFor(plan.team, athlete, load));
        const assumed = [];
        if (origins.unbroken.kind === "assumed") assumed.push(`${reserve.unbroken} reps unbroken`);
        if (origins.cycle.kind === "assumed") assumed.push(`${plain(reserve.cycleS)} s a rep`);
        add(athlete, movement, turn.id, assumed);
      }
    }
    if (turn.hold === null) continue;
    for (const athlete of turn.holders) {
      const { origin, seconds } = abilities.hold(athlete, turn.hold);
      add(athlete, turn.hold, turn.id, origin.kind === "assumed" ? [`a hold of ${seconds} s`] : []);
    }
  }
  return [...found.values()];
}
