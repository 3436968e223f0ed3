import { type Problem, problem } from "../../0-base/problem.js";
import { clock, counted, plain } from "../../0-base/quantity.js";
import { limitsInForce } from "../../3-plan/limits.js";
import { type Rest, restsOf, withLeaves } from "../../3-plan/plan.js";
import { simulate } from "../../4-timeline/simulate.js";
import type { Miss, Timeline, TurnRun } from "../../4-timeline/timeline.js";
import { pierNine } from "../examples.js";
import { byPublisher, limitValues } from "../limits.js";
import { lineBefore } from "../lines.js";
import { type Simulated, simulatedPlan } from "../nodes.js";
import { amount, type Judged, type Rule, text } from "../rule.js";

export const restShort: Rule = {
  id: "rest-short",
  severity: (values) => (values.neededS === undefined ? byPublisher(values) : "warning"),
  title: "A rest shorter than the rule, or too short for the next set",
  why: "The next set comes out of a reserve that is not back yet.",
  source: "the rule, or the reserve model; the rest is the timeline's",
  bad: `${pierNine}event Sprint\n  handover 3 s\n  stage 15 box jump\nplan P for Sprint\n  rule rest at least 20 s between sets\n  Ada 5\n  Olu 5\n  «Ada 5»\n`,
  good: `${pierNine}event Sprint\n  handover 3 s\n  stage 15 box jump\nplan P for Sprint\n  rule rest at least 16 s between sets\n  Ada 5\n  Olu 5\n  Ada 5\n`,
  check: (judged) => {
    const simulated = simulatedPlan(judged);
    if (!simulated) return [];
    const limit = limitsInForce(simulated.sources, "rest at least")[0];
    if (!limit) return tooShortForNext(simulated, judged);
    const { timeline, spanOf } = simulated;
    const found = new Map<number, Problem>();
    for (const { name } of timeline.athletes) {
      const runs = timeline.turns.filter(({ athletes }) => athletes.some((one) => one.name === name));
      runs.forEach((run, at) => {
        const before = runs[at - 1];
        const restedS = before ? run.startS - workedUntil(before, name, timeline) : Number.POSITIVE_INFINITY;
        if (restedS >= limit.value - 1e-6 || found.has(run.step)) return;
        const wait = Math.ceil(limit.value - restedS);
        const fix = { title: `rest ${wait} s before`, edits: [lineBefore(judged.text, spanOf(run.step), `rest ${wait} s`)] };
        found.set(run.step, problem("rest-short", spanOf(run.step), { athlete: name, restedS, atS: run.startS, ...limitValues(limit) }, [fix]));
      });
    }
    return [...found.values()];
  },
  message: (values) => values.neededS !== undefined
    ? `After ${plain(amount(values, "restS"))} s of rest ${text(values, "athlete")} is expected to miss after ${amount(values, "after")} of ${counted(amount(values, "size"), "rep")}; ${plain(amount(values, "neededS"))} s would be enough.`
    : `${text(values, "athlete")} rests ${plain(amount(values, "restedS"))} s before ${clock(amount(values, "atS"))}; the rule wants ${plain(amount(values, "limit"))} s (${text(values, "by")}). Let somebody else go first, or add a rest.`,
};

/** When an athlete's own work of a turn ends. */
function workedUntil({ startS, endS }: TurnRun, name: string, { segments }: Timeline): number {
  const own = segments.filter((one) => one.athlete === name && one.activity === "work" && one.startS >= startS - 1e-6 && one.startS < endS);
  return Math.max(startS, ...own.map((one) => one.endS));
}

/** Longer than any rest a coach would plan inside an event. */
const longestRestS = 300;

/** The first written rest after which a set misses, with the whole seconds that would spare every miss behind it. */
function tooShortForNext({ plan, timeline, abilities, spanOf }: Simulated, { evaluation }: Judged): readonly Problem[] {
  for (const rest of restsOf(plan.steps)) {
    if (rest.until.kind !== "time") continue;
    const restS = rest.until.seconds;
    const miss = missAfter(rest, timeline);
    if (!miss || restS >= longestRestS) continue;
    const spares = (seconds: number): boolean =>
      missAfter(rest, simulate({ ...plan, steps: withLeaves(plan.steps, (leaf) => [leaf.id === rest.id ? { ...rest, until: { kind: "time", seconds } } : leaf]) }, abilities, evaluation.world.constants)) === null;
    if (!spares(longestRestS)) return [];
    let [short, enough] = [Math.floor(restS), longestRestS];
    while (enough - short > 1) {
      const middle = (short + enough) >> 1;
      if (spares(middle)) enough = middle;
      else short = middle;
    }
    const who = rest.who.length > 0 ? `${rest.who.join(" + ")} ` : "";
    const fix = { title: `rest ${enough} s`, edits: [{ span: spanOf(rest.id), text: `${who}rest ${enough} s` }] };
    const values = { restS, neededS: enough, athlete: miss.athlete, after: miss.after, size: miss.of };
    return [problem("rest-short", spanOf(rest.id), values, [fix])];
  }
  return [];
}

/** The first miss in a turn that a rest comes straight before: of those named, or of anyone. */
function missAfter({ id, who }: Rest, { rests, turns }: Timeline): Miss | null {
  for (const { step, endS } of rests) {
    if (step !== id) continue;
    const next = turns.find((run) => run.startS >= endS - 1e-6 && (who.length === 0 || run.athletes.some(({ name }) => who.includes(name))));
    const miss = next?.misses.find(({ athlete }) => who.length === 0 || who.includes(athlete));
    if (miss) return miss;
  }
  return null;
}
