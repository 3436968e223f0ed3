import { type Fix, problem, type ProblemOf } from "../../0-base/problem.js";
import { clock, plain, toldApart } from "../../0-base/quantity.js";
import { type Turn, turnsOf, withLeaves, type Work } from "../../3-plan/plan.js";
import { simulate } from "../../4-timeline/simulate.js";
import type { Timeline } from "../../4-timeline/timeline.js";
import { kelpStreet } from "../examples.js";
import { byPublisher, limitValues, type LimitValues } from "../limit-values.js";
import { holdTurnAtMost, stintsOver } from "../limits/hold-turn-at-most.js";
import { inForce } from "../limits/limit.js";
import { lineAfter } from "../lines.js";
import { type Simulated, simulatedPlan } from "../nodes.js";
import { type Judged, type Rule } from "../rule.js";
import type { Stint } from "../stints.js";

declare module "../../0-base/problem.js" {
  interface ProblemValues {
    "hold-turn-missed": LimitValues & { athlete: string; heldS: number; atS: number; rep: number; each: boolean };
  }
}

export const holdTurnMissed: Rule<"hold-turn-missed"> = {
  id: "hold-turn-missed",
  severity: byPublisher,
  title: "Somebody who stays on the hold too long",
  why: "The rotation keeps a hold from failing, and a hold that fails can drop on someone.",
  source: "the event; the time is the timeline's",
  bad: `${kelpStreet}event Sprint\n  handover 2 s\n  stage 30 box jump while 1 hold stone\n  rule hold turn at most 45 s\nplan P for Sprint\n  Ines 5 while Marta hold\n  «Bram 25 while Tariq hold»\n`,
  good: `${kelpStreet}event Sprint\n  handover 2 s\n  stage 30 box jump while 1 hold stone\n  rule hold turn at most 45 s\nplan P for Sprint\n  Ines 10 while Marta hold\n  Bram 20 while Tariq hold\n`,
  check: (judged) => {
    const simulated = simulatedPlan(judged);
    const limit = simulated && inForce(simulated.sources, holdTurnAtMost)[0];
    if (!simulated || !limit) return [];
    const found = new Map<number, ProblemOf<"hold-turn-missed">>();
    for (const stint of stintsOver(simulated.timeline, limit.value)) {
      const missed = dueIn(stint, stint.startS + limit.value, simulated);
      if (!missed || found.has(missed.step)) continue;
      const values = {
        athlete: stint.athlete,
        heldS: stint.endS - stint.startS,
        atS: stint.startS + limit.value,
        rep: missed.rep,
        each: missed.each,
        ...limitValues(limit),
      };
      // A change of hands moves every one after it: only the first is offered, the next when it is settled.
      const fixes = found.size === 0 ? changeOf(stint, missed, limit.value, simulated, judged) : [];
      found.set(missed.step, problem("hold-turn-missed", simulated.spanOf(missed.step), values, fixes));
    }
    return [...found.values()];
  },
  message: (values) => {
    const who = values.athlete;
    const rep = values.rep;
    const due = rep > 0 ? `after rep ${rep}${values.each ? " each" : ""} of this turn` : "before this turn";
    const [held, allowed] = toldApart(values.heldS, values.limit, plain);
    return `${who} holds for ${held} s, and at most ${allowed} s are allowed (${values.by}). The change was due at ${clock(values.atS)}, ${due}.`;
  },
};

interface Due {
  readonly step: number;
  /** Of each worker, where `each`; else of all. */
  readonly rep: number;
  readonly each: boolean;
}

/** The turn of a stint in which the change was due, and after how many of its reps. */
function dueIn({ steps }: Stint, atS: number, { plan, timeline }: Simulated): Due | null {
  const run =
    timeline.turns.find(({ step, startS, endS }) => steps.includes(step) && endS > atS + 1e-6 && startS <= atS + 1e-6) ??
    timeline.turns.find(({ step, startS }) => steps.includes(step) && startS > atS - 60 && startS >= atS - 1e-6);
  if (!run) return null;
  const turn = turnsOf(plan.steps).find(({ id }) => id === run.step);
  const each = turn !== undefined && turn.who.length > 1 && turn.works[0]?.rhythm === "each";
  return { step: run.step, rep: Math.floor(run.repEndsS.filter((endS) => endS <= atS + 1e-6).length / (each ? turn.who.length : 1)), each };
}

/** Changes tried on the clock for one finding: each costs a simulation of the plan. */
const mostTries = 2;

/** Nobody changes hands for a single rep. */
const leastPart = 2;

/** A change of hands as steps and as text. */
interface Change {
  readonly title: string;
  readonly edits: Fix["edits"];
  readonly turns: readonly Turn[];
}

/** The first change of hands that, tried on the clock, leaves fewer stints too long and drops no hold that was not dropped. */
function changeOf(stint: Stint, due: Due, limitS: number, simulated: Simulated, { text: source, evaluation }: Judged): readonly Fix[] {
  const { plan, timeline, abilities } = simulated;
  const turn = turnsOf(plan.steps).find(({ id }) => id === due.step);
  if (!turn) return [];
  const before = troubles(timeline, limitS);
  let tries = 0;
  for (const { name } of plan.team.athletes) {
    if (name === stint.athlete || turn.who.includes(name) || turn.holders.includes(name)) continue;
    for (const { title, edits, turns } of changesTo(name, turn, stint, due, simulated, source)) {
      tries += 1;
      if (tries > mostTries) return [];
      const tried = simulate(
        { ...plan, steps: withLeaves(plan.steps, (leaf) => (leaf.id === turn.id ? turns : [leaf])) },
        abilities,
        evaluation.world.constants,
      );
      const after = troubles(tried, limitS);
      if (after.long < before.long && after.drops <= before.drops && after.misses <= before.misses) return [{ title, edits }];
    }
  }
  return [];
}

function troubles(timeline: Timeline, limitS: number) {
  const { turns } = timeline;
  return {
    long: stintsOver(timeline, limitS).length,
    drops: turns.reduce((sum, { drops }) => sum + drops.length, 0),
    misses: turns.reduce((sum, { misses }) => sum + misses.length, 0),
  };
}

/** Somebody else on the hold: for the rest of the turn, split at the rep that was due; or for the whole of it. */
function changesTo(
  name: string,
  turn: Turn,
  { athlete, startS }: Stint,
  { step, rep: first }: Due,
  { plan, timeline, spanOf }: Simulated,
  source: string,
): readonly Change[] {
  const node = plan.nodes[step];
  const holder = node?.holders.find((span) => source.slice(span.from, span.to) === athlete);
  const run = timeline.turns.find((one) => one.step === step && one.endS > startS);
  const [work] = turn.works;
  if (!node || !holder || !run || !work) return [];
  const holders = turn.holders.map((one) => (one === athlete ? name : one));
  const swap: Change = {
    title: `${name} takes the hold for this turn`,
    edits: [{ span: holder, text: name }],
    turns: [{ ...turn, holders }],
  };
  const size = work.ladders[0]?.[0] ?? 0;
  const splits = run.startS <= startS + 1e-6 && node.size && first >= leastPart && size - first >= leastPart && !work.broken;
  if (!splits || !node.size) return [swap];
  const span = spanOf(step);
  const line = source.slice(span.from, span.to);
  const at = (offset: number): number => offset - span.from;
  const rest =
    line.slice(0, at(node.size.from)) +
    String(size - first) +
    line.slice(at(node.size.to), at(holder.from)) +
    name +
    line.slice(at(holder.to));
  const sized = (reps: number): readonly Work[] => [{ ...work, ladders: work.ladders.map(() => [reps]) }];
  const split: Change = {
    title: `${name} takes the hold after rep ${first}`,
    edits: [{ span: node.size, text: String(first) }, lineAfter(source, span, rest)],
    turns: [
      { ...turn, works: sized(first) },
      { ...turn, id: plan.nodes.length, works: sized(size - first), holders },
    ],
  };
  return [split, swap];
}
