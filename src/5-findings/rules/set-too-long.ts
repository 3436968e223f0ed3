import { type Problem, problem } from "../../0-base/problem.js";
import { clock, counted } from "../../0-base/quantity.js";
import { loadFor, repsInPass, type Turn, turnsOf } from "../../3-plan/plan.js";
import { pierNine } from "../examples.js";
import { type Simulated, simulatedPlan } from "../nodes.js";
import { amount, type Rule, text } from "../rule.js";

export const setTooLong: Rule = {
  id: "set-too-long",
  severity: (values) => (values.fresh === true ? "error" : "warning"),
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
    const { athlete, best, size, after, passes } = {
      athlete: text(values, "athlete"),
      best: amount(values, "best"),
      size: amount(values, "size"),
      after: amount(values, "after"),
      passes: amount(values, "passes"),
    };
    if (values.fresh === true) return `${counted(size, "rep")} in one set, but ${athlete}'s best unbroken set is ${best}. Split it.`;
    const again = passes > 1 ? `, and in ${passes} passes in all` : "";
    return `At ${clock(amount(values, "atS"))} ${athlete} is expected to miss after ${counted(after, "rep")} of ${size}${again}. Take fewer reps, or rest longer before.`;
  },
};

/** The first miss of a turn. A set that the stage's end cuts short is judged as it was cut. */
function missedIn(turn: Turn, { plan, timeline, abilities, spanOf }: Simulated): readonly Problem[] {
  const missed = timeline.turns.filter(({ step, misses }) => step === turn.id && misses.length > 0);
  const run = missed[0];
  const miss = run?.misses[0];
  if (!run || !miss) return [];
  const longest = turn.works.map((work) => {
    const size = Math.max(...(work.broken?.parts ?? [repsInPass(work, turn.who.indexOf(miss.athlete), run.pass)]));
    return { size, best: abilities.movement(miss.athlete, work.movement, loadFor(plan.team, miss.athlete, work.load)).reserve.unbroken };
  });
  const tooLong = longest.find(({ size, best }) => size > best);
  const values = tooLong
    ? { fresh: true, athlete: miss.athlete, ...tooLong }
    : { fresh: false, athlete: miss.athlete, best: 0, size: miss.of, after: miss.after, atS: miss.atS, passes: missed.length };
  return [problem("set-too-long", spanOf(turn.id), values)];
}
