import { problem, type ProblemOf } from "../../0-base/problem.js";
import { clock, counted } from "../../0-base/quantity.js";
import { loadFor, repsInPass, type Rest, restsOf, type Turn, turnsOf } from "../../3-plan/plan.js";
import { pierNine } from "../examples.js";
import { type Simulated, simulatedPlan } from "../nodes.js";
import { always, type Rule } from "../rule.js";

declare module "../../0-base/problem.js" {
  interface ProblemValues {
    "never-ready": { athlete: string; waitedS: number; size: number; best: number; cut: boolean };
  }
}

export const neverReady: Rule<"never-ready"> = {
  id: "never-ready",
  severity: always("warning"),
  title: "A rest until ready for a set that nobody is ever ready for",
  why: "A reserve comes back ever more slowly: for a best set, or more, it is never wholly back, and the wait is long.",
  source: "the reserve model; the wait ends when 99 % of the reserve is back",
  bad: `${pierNine}event Sprint\n  stage 30 box jump\nplan Simple for Sprint\n  Ada 5\n  «rest until ready»\n  Ada 20\n  Olu 5\n`,
  good: `${pierNine}event Sprint\n  stage 30 box jump\nplan Simple for Sprint\n  Ada 5\n  rest until ready\n  Ada 14\n  Olu 11\n`,
  check: (judged) => {
    const simulated = simulatedPlan(judged);
    return simulated ? restsOf(simulated.plan.steps).flatMap((rest) => waitedFor(rest, simulated)) : [];
  },
  message: (values) =>
    `${values.athlete} waits ${clock(values.waitedS)}${values.cut ? ", to the cap," : ""} to be ready for ${counted(values.size, "rep")} of a best ${values.best}, and is not wholly. Plan fewer reps, or write how long to rest.`,
};

function waitedFor(rest: Rest, { plan, timeline, abilities, spanOf }: Simulated): readonly ProblemOf<"never-ready">[] {
  if (rest.until.kind !== "ready") return [];
  const ran = timeline.rests.find(({ step }) => step === rest.id);
  if (!ran) return [];
  const turns = turnsOf(plan.steps);
  const after = timeline.turns.filter((run) => run.startS >= ran.startS - 1e-6);
  const next = after.find(({ waitedS }) => waitedS > 0);
  // A wait that the cap ends has no turn behind it: it was for the one that the text has next.
  const step = after.length === 0 ? turns.find(({ id }) => id > rest.id)?.id : next?.step;
  const turn = turns.find(({ id }) => id === step);
  const best = turn
    ? bestSetIn(turn, next?.pass ?? 0, rest.who, (name) => {
        const [work] = turn.works;
        return work ? abilities.unbroken(name, work.movement, loadFor(plan.team, name, work.load)).reps : 0;
      })
    : null;
  return best
    ? [problem("never-ready", spanOf(rest.id), { ...best, waitedS: next?.waitedS ?? timeline.endS - ran.startS, cut: !next })]
    : [];
}

/** Somebody of a turn whose set is a best one, or more. */
function bestSetIn({ who, works: [work] }: Turn, pass: number, resting: readonly string[], unbroken: (name: string) => number) {
  for (const [place, athlete] of who.entries()) {
    if (!work || (resting.length > 0 && !resting.includes(athlete))) continue;
    const size = Math.max(...(work.broken?.parts ?? [repsInPass(work, place, pass)]));
    const best = unbroken(athlete);
    // Who can do one and not two has something left after it, and is ready again.
    if (size >= best && best > 1) return { athlete, size, best };
  }
  return null;
}
