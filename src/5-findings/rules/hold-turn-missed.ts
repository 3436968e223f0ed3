import { type Fix, type Problem, problem } from "../../0-base/problem.js";
import { clock, plain } from "../../0-base/quantity.js";
import { limitsInForce } from "../../3-plan/limits.js";
import { turnsOf } from "../../3-plan/plan.js";
import { kelpStreet } from "../examples.js";
import { byPublisher, limitValues } from "../limits.js";
import { lineAfter } from "../lines.js";
import { type Simulated, simulatedPlan } from "../nodes.js";
import { amount, type Judged, type Rule, text } from "../rule.js";
import { type Stint, stintsOf } from "../stints.js";

export const holdTurnMissed: Rule = {
  id: "hold-turn-missed",
  severity: byPublisher,
  title: "Somebody who stays on the hold too long",
  why: "The rotation keeps a hold from failing, and a hold that fails can drop on someone.",
  source: "the event; the time is the timeline's",
  bad: `${kelpStreet}event Sprint\n  handover 2 s\n  stage 30 box jump while 1 hold stone\n  rule hold turn at most 45 s\nplan P for Sprint\n  Ines 5 while Marta hold\n  «Bram 25 while Tariq hold»\n`,
  good: `${kelpStreet}event Sprint\n  handover 2 s\n  stage 30 box jump while 1 hold stone\n  rule hold turn at most 45 s\nplan P for Sprint\n  Ines 10 while Marta hold\n  Bram 20 while Tariq hold\n`,
  check: (judged) => {
    const simulated = simulatedPlan(judged);
    const limit = simulated && limitsInForce(simulated.sources, "hold turn at most")[0];
    if (!simulated || !limit) return [];
    const found = new Map<number, Problem>();
    for (const stint of stintsOf(simulated.timeline.segments)) {
      if (stint.endS - stint.startS <= limit.value + 1e-6) continue;
      const missed = dueIn(stint, stint.startS + limit.value, simulated);
      if (!missed || found.has(missed.step)) continue;
      const values = { athlete: stint.athlete, heldS: stint.endS - stint.startS, atS: stint.startS + limit.value, rep: missed.rep, ...limitValues(limit) };
      found.set(missed.step, problem("hold-turn-missed", simulated.spanOf(missed.step), values, changeOf(stint, missed, simulated, judged)));
    }
    return [...found.values()];
  },
  message: (values) => {
    const who = text(values, "athlete");
    const rep = amount(values, "rep");
    const due = rep > 0 ? `after rep ${rep} of this turn` : "before this turn";
    return `${who} holds for ${plain(amount(values, "heldS"))} s, and at most ${plain(amount(values, "limit"))} s are allowed (${text(values, "by")}). The change was due at ${clock(amount(values, "atS"))}, ${due}.`;
  },
};

interface Due {
  readonly step: number;
  readonly rep: number;
}

/** The turn of a stint in which the change was due, and after how many of its reps. */
function dueIn({ steps }: Stint, atS: number, { timeline }: Simulated): Due | null {
  const run = timeline.turns.find(({ step, startS, endS }) => steps.includes(step) && endS > atS + 1e-6 && startS <= atS + 1e-6)
    ?? timeline.turns.find(({ step, startS }) => steps.includes(step) && startS > atS - 60 && startS >= atS - 1e-6);
  return run ? { step: run.step, rep: run.repEndsS.filter((endS) => endS <= atS + 1e-6).length } : null;
}

/** Another holder: for the rest of the turn, split at the rep that was due; or for the whole of it where the change was due before. */
function changeOf({ athlete, startS }: Stint, { step, rep }: Due, { plan, timeline, spanOf }: Simulated, { text: source }: Judged): readonly Fix[] {
  const turn = turnsOf(plan.steps).find(({ id }) => id === step);
  const node = plan.nodes[step];
  const holder = node?.holders.find((span) => source.slice(span.from, span.to) === athlete);
  const other = plan.team.athletes.find(({ name }) => turn && name !== athlete && !turn.who.includes(name) && !turn.holders.includes(name));
  const free = other ?? plan.team.athletes.find(({ name }) => turn && name !== athlete && !turn.who.includes(name));
  const run = timeline.turns.find((one) => one.step === step && one.endS > startS);
  if (!turn || !holder || !free || !run) return [];
  const [work] = turn.works;
  const size = work?.ladders[0]?.[0] ?? 0;
  const parties = work?.rhythm === "each" ? turn.who.length : 1;
  const first = Math.floor(rep / parties);
  if (run.startS <= startS + 1e-6 && node?.size && first >= 1 && first < size && !work?.broken) {
    const span = spanOf(step);
    const line = source.slice(span.from, span.to);
    const rest = line.slice(0, node.size.from - span.from) + String(size - first) + line.slice(node.size.to - span.from, holder.from - span.from) + free.name + line.slice(holder.to - span.from);
    return [{ title: `${free.name} takes the hold after rep ${first}`, edits: [{ span: node.size, text: String(first) }, lineAfter(source, span, rest)] }];
  }
  return [{ title: `${free.name} takes the hold for this turn`, edits: [{ span: holder, text: free.name }] }];
}
