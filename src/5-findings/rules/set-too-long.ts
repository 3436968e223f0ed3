import { problem, type ProblemOf } from "../../0-base/problem.js";
import { clock, counted } from "../../0-base/quantity.js";
import { loadFor, repsInPass, type Turn, turnsOf } from "../../3-plan/plan.js";
import { pierNine } from "../examples.js";
import { type Simulated, simulatedPlan } from "../nodes.js";
import { type Rule } from "../rule.js";

declare module "../../0-base/problem.js" {
  interface ProblemValues {
    "set-too-long":
      | { fresh: true; athlete: string; size: number; best: number }
      | { fresh: false; athlete: string; size: number; after: number; atS: number; passes: number };
  }
}

export const setTooLong: Rule<"set-too-long"> = {
  id: "set-too-long",
  severity: (values) => (values.fresh ? "error" : "warning"),
  title: "A set larger than the athlete has left",
  why: "A missed rep costs its own time, seconds of shaking out, and nerve.",
  source: "the reserve model; that misses cost more than they bring is common practice",
  bad: `${pierNine}event Sprint\n  stage 30 box jump\nplan Simple for Sprint\n  «Ada 22»\n  Olu 8\n`,
  good: `${pierNine}event Sprint\n  stage 30 box jump\nplan Simple for Sprint\n  Ada 18\n  Olu 12\n`,
  check: (judged) => {
    const simulated = simulatedPlan(judged);
    return simulated ? turnsOf(simulated.plan.steps).flatMap((turn) => missedIn(turn, simulated)) : [];
  },
  message: (values) => {
    const { athlete, size } = values;
    if (values.fresh) return `${counted(size, "rep")} in one set, but ${athlete}'s best unbroken set is ${values.best}. Split it.`;
    const { after, passes } = values;
    const again = passes > 1 ? `, and in ${passes} passes in all` : "";
    return `At ${clock(values.atS)} ${athlete} is expected to miss after ${counted(after, "rep")} of ${size}${again}. Take fewer reps, or rest longer before.`;
  },
};

/** The first miss of a turn. A set that the stage's end cuts short is judged as it was cut. */
function missedIn(turn: Turn, { plan, timeline, abilities, spanOf }: Simulated): readonly ProblemOf<"set-too-long">[] {
  const missed = timeline.turns.filter(({ step, misses }) => step === turn.id && misses.length > 0);
  const run = missed[0];
  const miss = run?.misses[0];
  if (!run || !miss) return [];
  const longest = turn.works.map((work) => {
    const size = Math.max(...(work.broken?.parts ?? [repsInPass(work, turn.who.indexOf(miss.athlete), run.pass)]));
    return { size, best: abilities.movement(miss.athlete, work.movement, loadFor(plan.team, miss.athlete, work.load)).reserve.unbroken };
  });
  const tooLong = longest.find(({ size, best }) => size > best);
  const { athlete } = miss;
  const values = tooLong
    ? { fresh: true as const, athlete, ...tooLong }
    : { fresh: false as const, athlete, size: miss.of, after: miss.after, atS: miss.atS, passes: missed.length };
  return [problem("set-too-long", spanOf(turn.id), values)];
}
