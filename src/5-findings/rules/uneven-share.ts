import { type Fix, type Problem, problem } from "../../0-base/problem.js";
import { percent } from "../../0-base/quantity.js";
import { limitsInForce } from "../../3-plan/limits.js";
import { type PlanSpec, type Rest, type Step, type Turn, turnsOf, withLeaves } from "../../3-plan/plan.js";
import { simulate } from "../../4-timeline/simulate.js";
import type { StageRun, Timeline } from "../../4-timeline/timeline.js";
import { kelpStreet } from "../examples.js";
import { byPublisher, limitValues } from "../limits.js";
import { type Simulated, simulatedPlan } from "../nodes.js";
import { amount, type Judged, type Rule, text } from "../rule.js";

export const unevenShare: Rule = {
  id: "uneven-share",
  severity: byPublisher,
  title: "A stage shared unevenly",
  why: "The event wants the work shared; a split outside its bounds can cost the whole score.",
  source: "the event",
  bad: `${kelpStreet}event Sprint\n  stage 40 box jump\n  rule share within 10 %\n«plan P for Sprint»\n  Ines 18\n  Marta 6\n  Bram 8\n  Tariq 8\n`,
  good: `${kelpStreet}event Sprint\n  stage 40 box jump\n  rule share within 10 %\nplan P for Sprint\n  Ines 14\n  Marta 6\n  Bram 10\n  Tariq 10\n`,
  check: (judged) => {
    const simulated = simulatedPlan(judged);
    return simulated ? simulated.timeline.stages.flatMap((run) => uneven(run, simulated, judged)) : [];
  },
  message: (values) => {
    const reps = amount(values, "reps");
    const more = reps > 0 ? "too many" : "too few";
    return `${text(values, "athlete")} does ${percent(amount(values, "share"))} of ${text(values, "stage")}, ${Math.abs(reps)} rep${Math.abs(reps) === 1 ? "" : "s"} ${more}: the share due is ${percent(amount(values, "even"))}, within ${percent(amount(values, "limit"))} either way (${text(values, "by")}).`;
  },
};

/** An athlete or a pair, and the share of a stage that is theirs. */
interface Sharer {
  readonly name: string;
  readonly athletes: readonly string[];
  readonly due: number;
}

/** What each athlete declares (`rule share Ines 30 %`); who declares nothing shares what is left evenly. A pair's is its athletes'. */
function sharersOf({ plan, sources }: Simulated): readonly Sharer[] {
  const names = plan.team.athletes.map(({ name }) => name);
  const declared = new Map(limitsInForce(sources, "share declared").flatMap(({ who, value }) => (who !== null && names.includes(who) ? [[who, value] as const] : [])));
  const rest = Math.max(0, 1 - [...declared.values()].reduce((sum, share) => sum + share, 0)) / Math.max(1, names.length - declared.size);
  const dueOf = (name: string): number => declared.get(name) ?? rest;
  const pairs = plan.pairs.filter(({ athletes }) => athletes.every((name) => names.includes(name)));
  return [
    ...names.map((name) => ({ name, athletes: [name], due: dueOf(name) })),
    ...pairs.map(({ name, athletes }) => ({ name: `pair ${name}`, athletes, due: athletes.reduce((sum, athlete) => sum + dueOf(athlete), 0) })),
  ];
}

/** Who is furthest from the share that is due, where that is further than the rule allows. Shares differ by points of percent. */
function uneven(run: StageRun, simulated: Simulated, judged: Judged): readonly Problem[] {
  const [limit] = limitsInForce(simulated.sources, "share within");
  const sharers = sharersOf(simulated);
  const worst = limit ? furthest(run, sharers) : null;
  if (!limit || !worst || Math.abs(worst.off) <= limit.value + 1e-9) return [];
  const allowed = (worst.due + Math.sign(worst.off) * limit.value) * worst.all;
  const reps = worst.off > 0 ? Math.ceil(worst.reps - allowed - 1e-9) : Math.floor(worst.reps - allowed + 1e-9);
  const values = { athlete: worst.name, stage: run.name, share: worst.due + worst.off, even: worst.due, reps, ...limitValues(limit) };
  const fix = evening(run.stage, limit.value, sharers, simulated, judged);
  return [problem("uneven-share", simulated.spanOf(run.step), values, fix ? [fix] : [])];
}

function furthest({ repsBy }: Pick<StageRun, "repsBy">, sharers: readonly Sharer[]) {
  const repsOf = ({ athletes }: Sharer): number => athletes.reduce((sum, name) => sum + (repsBy[name] ?? 0), 0);
  const all = Object.values(repsBy).reduce((sum, reps) => sum + reps, 0);
  if (all === 0 || sharers.length === 0) return null;
  const rows = sharers.map((sharer) => ({ ...sharer, all, reps: repsOf(sharer), off: repsOf(sharer) / all - sharer.due }));
  return rows.reduce((most, row) => (Math.abs(row.off) > Math.abs(most.off) + 1e-12 ? row : most));
}

const mostChanges = 40;

/** Sizes that even the split: a rep at a time from who has most to who has least, until the rule holds on the clock. */
function evening(stage: number, within: number, sharers: readonly Sharer[], { plan, abilities, spanOf }: Simulated, { evaluation }: Judged): Fix | null {
  const sizes = new Map<number, number>();
  const changed = (): PlanSpec => ({ ...plan, steps: withLeaves(plan.steps, (leaf) => [resized(leaf, sizes)]) });
  const turns = turnsOf(plan.steps).filter((turn) => turn.works.length === 1 && plan.nodes[turn.id]?.size);
  for (let change = 0; change < mostChanges; change += 1) {
    const timeline: Timeline = simulate(changed(), abilities, evaluation.world.constants);
    const run = timeline.stages.find((one) => one.stage === stage);
    const ran = new Set(timeline.turns.filter((one) => one.stage === stage).map(({ step }) => step));
    if (!run) return null;
    const all = Object.values(run.repsBy).reduce((sum, reps) => sum + reps, 0);
    const rows = sharers.filter(({ athletes }) => athletes.length === 1).map(({ name, due }) => ({ name, over: (run.repsBy[name] ?? 0) - due * all })).sort((a, b) => b.over - a.over);
    const worst = furthest(run, sharers);
    if (worst && Math.abs(worst.off) <= within) {
      if (sizes.size === 0) return null;
      const edits = [...sizes].map(([id, size]) => ({ span: plan.nodes[id]?.size ?? spanOf(id), text: String(size) }));
      return { title: `even the sizes: ${[...sizes.values()].join(", ")}`, edits };
    }
    const [most, least] = [rows[0]?.name ?? "", rows.at(-1)?.name ?? ""];
    const from = turns.find(({ id, who }) => ran.has(id) && who.includes(most) && !who.includes(least) && sizeOf(turns, id, sizes) > 1);
    const to = turns.find(({ id, who }) => ran.has(id) && who.includes(least) && !who.includes(most));
    if (!from || !to) return null;
    sizes.set(from.id, sizeOf(turns, from.id, sizes) - 1);
    sizes.set(to.id, sizeOf(turns, to.id, sizes) + 1);
  }
  return null;
}

function sizeOf(turns: readonly Turn[], id: number, sizes: ReadonlyMap<number, number>): number {
  return sizes.get(id) ?? turns.find((turn) => turn.id === id)?.works[0]?.ladders[0]?.[0] ?? 0;
}

function resized(leaf: Turn | Rest, sizes: ReadonlyMap<number, number>): Step {
  const size = leaf.kind === "turn" ? sizes.get(leaf.id) : undefined;
  return leaf.kind === "rest" || size === undefined ? leaf : { ...leaf, works: leaf.works.map((work) => ({ ...work, ladders: work.ladders.map(() => [size]) })) };
}
