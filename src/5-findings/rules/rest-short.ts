import { problem, type ProblemOf } from "../../0-base/problem.js";
import { clock, counted, plain } from "../../0-base/quantity.js";
import { leavesOf, type PlanSpec, type Rest, restsOf, type Step, turnsOf, withLeaves } from "../../3-plan/plan.js";
import { simulate } from "../../4-timeline/simulate.js";
import type { Miss, Timeline, TurnRun } from "../../4-timeline/timeline.js";
import { pierNine } from "../examples.js";
import { byPublisher, limitValues, type LimitValues } from "../limit-values.js";
import { restAtLeast, restInside } from "../limits/rest-at-least.js";
import { inForce } from "../limits/limit.js";
import { lineBefore } from "../lines.js";
import { broken, type Simulated, simulatedPlan } from "../nodes.js";
import { costsOf, tooLongToTry } from "../worse.js";
import { type Judged, type Rule } from "../rule.js";

declare module "../../0-base/problem.js" {
  interface ProblemValues {
    "rest-short":
      | { athlete: string; after: number; size: number; restS: number; neededS: number; helps: boolean }
      | (LimitValues & { athlete: string; restedS: number; atS: number; inside: boolean });
  }
}

export const restShort: Rule<"rest-short"> = {
  id: "rest-short",
  severity: (values) => ("limit" in values ? byPublisher(values) : "warning"),
  title: "A rest shorter than the rule, or too short for the next set",
  why: "The next set comes out of a reserve that is not back yet.",
  source: "the rule, or the reserve model; the rest is the timeline's",
  bad: `${pierNine}event Sprint\n  handover 3 s\n  stage 15 box jump\nplan P for Sprint\n  rule rest at least 20 s between sets\n  Ada 5\n  Olu 5\n  «Ada 5»\n`,
  good: `${pierNine}event Sprint\n  handover 3 s\n  stage 15 box jump\nplan P for Sprint\n  rule rest at least 16 s between sets\n  Ada 5\n  Olu 5\n  Ada 5\n`,
  check: (judged) => {
    const simulated = simulatedPlan(judged);
    if (!simulated) return [];
    if (inForce(simulated.sources, restAtLeast).length === 0) return tooShortForNext(simulated, judged);
    const turns = turnsOf(simulated.plan.steps);
    return broken(simulated, restAtLeast).map(({ limit, who, value, step, atS, over }) => {
      const wait = Math.ceil(over);
      const inside = turns.some((turn) => turn.id === step && restInside(turn, Number.POSITIVE_INFINITY) === value);
      const fix = { title: `rest ${wait} s before`, edits: [lineBefore(judged.text, simulated.spanOf(step), `rest ${wait} s`)] };
      const values = { athlete: who, restedS: value, atS, inside, ...limitValues(limit) };
      return problem("rest-short", simulated.spanOf(step), values, inside ? [] : [fix]);
    });
  },
  message: (values) =>
    "neededS" in values
      ? `After ${plain(values.restS)} s of rest ${values.athlete} is expected to miss after ${values.after} of ${counted(values.size, "rep")}; ${values.helps ? `${plain(values.neededS)} s would be enough.` : `it would take ${plain(values.neededS)} s, which costs more than the miss: take fewer reps instead.`}`
      : values.inside
        ? `${values.athlete} rests ${plain(values.restedS, 2)} s inside the set; the rule wants ${plain(values.limit)} s (${values.by}). Rest as long between its parts, or leave it whole.`
        : `${values.athlete} rests ${plain(values.restedS, 2)} s before ${clock(values.atS)}; the rule wants ${plain(values.limit)} s (${values.by}). Let somebody else go first, or add a rest.`,
};

/** Longer than any rest a coach would plan inside an event. */
const longestRestS = 300;

/** The first written rest after which a set misses, with the whole seconds that would spare it; as a fix where that costs no score. */
function tooShortForNext(simulated: Simulated, { evaluation }: Judged): readonly ProblemOf<"rest-short">[] {
  const { plan, timeline, abilities, spanOf } = simulated;
  if (tooLongToTry(timeline)) return [];
  const { constants } = evaluation.world;
  const costs = costsOf(simulated, constants);
  for (const rest of restsOf(plan.steps)) {
    if (rest.until.kind !== "time") continue;
    const restS = rest.until.seconds;
    const beside = turnsBeside(rest.id, plan.steps);
    const miss = missAfter(rest, beside, timeline);
    if (!miss || restS >= longestRestS) continue;
    const resting = (seconds: number): PlanSpec => ({
      ...plan,
      steps: withLeaves(plan.steps, (leaf) => [leaf.id === rest.id ? { ...rest, until: { kind: "time", seconds } } : leaf]),
    });
    const restedFor = (seconds: number): Timeline => simulate(resting(seconds), abilities, constants);
    const spares = (seconds: number): boolean => missAfter(rest, beside, restedFor(seconds)) === null;
    if (!spares(longestRestS)) continue;
    let [short, enough] = [Math.floor(restS), longestRestS];
    while (enough - short > 1) {
      const middle = (short + enough) >> 1;
      if (spares(middle)) enough = middle;
      else short = middle;
    }
    const who = rest.who.length > 0 ? `${rest.who.join(" + ")} ` : "";
    const fix = { title: `rest ${enough} s`, edits: [{ span: spanOf(rest.id), text: `${who}rest ${enough} s` }] };
    const helps = !costs(resting(enough));
    const values = { restS, neededS: enough, athlete: miss.athlete, after: miss.after, size: miss.of, helps };
    return [problem("rest-short", spanOf(rest.id), values, helps ? [fix] : [])];
  }
  return [];
}

/** The turns of the lane that a step stands in, of the whole plan where it stands in none. */
function turnsBeside(id: number, steps: readonly Step[]): ReadonlySet<number> {
  const holds = (inner: readonly Step[]): boolean => leavesOf(inner).some((leaf) => leaf.id === id);
  for (const step of steps) {
    if (step.kind === "lanes") {
      for (const { body } of step.lanes) if (holds(body)) return turnsBeside(id, body);
    } else if (step.kind !== "turn" && step.kind !== "rest" && lanesIn(step.body) && holds(step.body)) return turnsBeside(id, step.body);
  }
  return new Set(turnsOf(steps).map((turn) => turn.id));
}

function lanesIn(steps: readonly Step[]): boolean {
  return steps.some((step) => step.kind === "lanes" || (step.kind !== "turn" && step.kind !== "rest" && lanesIn(step.body)));
}

/** The first miss in a turn that a rest comes straight before, in its lane: of those named, or of anyone. */
function missAfter({ id, who }: Rest, beside: ReadonlySet<number>, { rests, turns }: Timeline): Miss | null {
  for (const { step, endS } of rests) {
    if (step !== id) continue;
    const next = turns
      .filter(
        (run) =>
          beside.has(run.step) && run.startS >= endS - 1e-6 && (who.length === 0 || run.athletes.some(({ name }) => who.includes(name))),
      )
      .reduce<TurnRun | null>((first, run) => (first && first.startS <= run.startS ? first : run), null);
    const miss = next?.misses.find(({ athlete }) => who.length === 0 || who.includes(athlete));
    if (miss) return miss;
  }
  return null;
}
