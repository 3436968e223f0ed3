import { problem, type ProblemOf } from "../../0-base/problem.js";
import type { EventSpec } from "../../3-plan/event.js";
import { loadFor, type PlanSpec, repsInPass, turnsOf, withLeaves } from "../../3-plan/plan.js";
import { pierNine } from "../examples.js";
import { simulatedPlan } from "../nodes.js";
import { always, type Rule } from "../rule.js";
import { costsOf } from "../worse.js";

declare module "../../0-base/problem.js" {
  interface ProblemValues {
    "opens-hard": { athlete: string; size: number; best: number; wanted: number };
  }
}

/** Rules of thumb of the trade, no source: a long event, the hardest opening as a part of a best, and the one to take instead. */
const longS = 180;
export const hardestOpening = 1 / 3;
const usual = 1 / 4;

export const opensHard: Rule<"opens-hard"> = {
  id: "opens-hard",
  severity: always("warning"),
  title: "A first set that is too large for a long event",
  why: "A large opening set is paid back with interest over the minutes that follow.",
  source: "a rule of thumb of the trade (common practice, no source): a quarter to three tenths of the best unbroken set",
  bad: `${pierNine}event Drill\n  score reps\n  cap 4 min\n  stage box jump\nplan P for Drill\n  «Ada 8»\n  repeat\n    rest 12 s\n    Ada 5\n`,
  good: `${pierNine}event Drill\n  score reps\n  cap 4 min\n  stage box jump\nplan P for Drill\n  Ada 6\n  Olu 8\n`,
  check: (judged) => {
    const simulated = simulatedPlan(judged);
    if (!simulated || !isLong(simulated.plan.event)) return [];
    const { plan, abilities, spanOf } = simulated;
    const costs = costsOf(simulated, judged.evaluation.world.constants);
    const seen = new Set<string>();
    return turnsOf(plan.steps).flatMap((turn): readonly ProblemOf<"opens-hard">[] => {
      if (turn.rounds !== null) return [];
      return turn.works.flatMap((work) =>
        turn.who.flatMap((name, place) => {
          const key = `${name} ${work.movement}`;
          if (seen.has(key)) return [];
          seen.add(key);
          const best = abilities.unbroken(name, work.movement, loadFor(plan.team, name, work.load)).reps;
          const size = work.broken?.parts[0] ?? repsInPass(work, place, 0);
          const wanted = Math.max(1, Math.round(best * usual));
          if (size <= best * hardestOpening + 1e-9 || wanted >= size || prescribed(plan, work.movement, size)) return [];
          const node = plan.nodes[turn.id];
          const smaller: PlanSpec = {
            ...plan,
            steps: withLeaves(plan.steps, (leaf) => [
              leaf.id === turn.id && leaf.kind === "turn"
                ? { ...leaf, works: leaf.works.map((one) => ({ ...one, ladders: [[wanted]] })) }
                : leaf,
            ]),
          };
          const fixable = node?.size && !work.broken && turn.who.length === 1 && !costs(smaller);
          const fixes = fixable && node?.size ? [{ title: `open with ${wanted}`, edits: [{ span: node.size, text: String(wanted) }] }] : [];
          return [problem("opens-hard", spanOf(turn.id), { athlete: name, size, best, wanted }, fixes)];
        }),
      );
    });
  },
  message: (values) =>
    `${values.athlete} opens with ${values.size} of a best ${values.best}: more than a third. A rule of thumb of the trade opens with about a quarter, ${values.wanted}.`,
};

/** Whether the trade warns of large first sets: in a long event for reps. */
export function isLong({ score, capS }: EventSpec): boolean {
  return score === "reps" && (capS ?? 0) >= longS;
}

/** Whether the event asks just that many of a movement in a round: the coach has no choice. */
function prescribed({ event }: PlanSpec, movement: string, size: number): boolean {
  return event.stages.some(({ rounds, items }) => rounds && items.some((item) => item.movement === movement && item.count === size));
}
