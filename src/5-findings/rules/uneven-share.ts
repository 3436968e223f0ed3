import { type Fix, problem } from "../../0-base/problem.js";
import { percent } from "../../0-base/quantity.js";
import { type PlanSpec, type Rest, type Step, type Turn, turnsOf, withLeaves } from "../../3-plan/plan.js";
import { simulate } from "../../4-timeline/simulate.js";
import type { Timeline } from "../../4-timeline/timeline.js";
import { kelpStreet } from "../examples.js";
import { byPublisher, limitValues, type LimitValues } from "../limit-values.js";
import { inForce, stagesIn } from "../limits/limit.js";
import { shareDeclared } from "../limits/share-declared.js";
import { furthestOff, type Sharer, sharersOf, shareWithin } from "../limits/share-within.js";
import { breaksMore, broken, type Simulated, simulatedPlan } from "../nodes.js";
import { type Judged, type Rule } from "../rule.js";
import { tooLongToTry } from "../worse.js";

declare module "../../0-base/problem.js" {
  interface ProblemValues {
    "uneven-share": LimitValues & { athlete: string; stage: string; reps: number; share: number; even: number };
  }
}

export const unevenShare: Rule<"uneven-share"> = {
  id: "uneven-share",
  severity: byPublisher,
  title: "A stage shared unevenly",
  why: "The event wants the work shared; a split outside its bounds can cost the whole score.",
  source: "the event",
  bad: `${kelpStreet}event Sprint\n  stage 40 box jump\n  rule share within 10 %\n«plan P for Sprint»\n  Ines 18\n  Marta 6\n  Bram 8\n  Tariq 8\n`,
  good: `${kelpStreet}event Sprint\n  stage 40 box jump\n  rule share within 10 %\nplan P for Sprint\n  Ines 14\n  Marta 6\n  Bram 10\n  Tariq 10\n`,
  check: (judged) => {
    const simulated = simulatedPlan(judged);
    if (!simulated) return [];
    const sharers = sharersOf(
      simulated.plan.team.athletes.map(({ name }) => name),
      simulated.plan.pairs,
      inForce(simulated.sources, shareDeclared),
    );
    return broken(simulated, shareWithin).map(({ limit, who, value, due, step, stage }) => {
      const run = stagesIn(simulated.run).find((one) => one.stage === stage);
      const all = Object.values(run?.repsBy ?? {}).reduce((sum, reps) => sum + reps, 0);
      const beyond = (value - due - Math.sign(value - due) * limit.value) * all;
      const reps = beyond > 0 ? Math.ceil(beyond - 1e-9) : Math.floor(beyond + 1e-9);
      const values = { athlete: who, stage: run?.name ?? "", share: value, even: due, reps, ...limitValues(limit) };
      const fix = tooLongToTry(simulated.timeline) ? null : evening(stage ?? 0, limit.value, sharers, simulated, judged);
      return problem("uneven-share", simulated.spanOf(step), values, fix ? [fix] : []);
    });
  },
  message: (values) => {
    const reps = values.reps;
    const more = reps > 0 ? "too many" : "too few";
    return `${values.athlete} does ${percent(values.share)} of ${values.stage}, ${Math.abs(reps)} rep${Math.abs(reps) === 1 ? "" : "s"} ${more}: the share due is ${percent(values.even)}, within ${percent(values.limit)} either way (${values.by}).`;
  },
};

const mostChanges = 40;

/** Sizes that even the split: a rep at a time from who has most to who has least, until the rule holds on the clock. */
function evening(stage: number, within: number, sharers: readonly Sharer[], simulated: Simulated, { evaluation }: Judged): Fix | null {
  const { plan, abilities, spanOf } = simulated;
  const sizes = new Map<number, number>();
  const changed = (): PlanSpec => ({ ...plan, steps: withLeaves(plan.steps, (leaf) => [resized(leaf, sizes)]) });
  const turns = turnsOf(plan.steps).filter((turn) => turn.works.length === 1 && plan.nodes[turn.id]?.size);
  for (let change = 0; change < mostChanges; change += 1) {
    const timeline: Timeline = simulate(changed(), abilities, evaluation.world.constants);
    const [run] = stagesIn({ plan, stages: timeline.stages.filter((one) => one.stage === stage) });
    const ran = new Set(timeline.turns.filter((one) => one.stage === stage).map(({ step }) => step));
    if (!run) return null;
    const all = Object.values(run.repsBy).reduce((sum, reps) => sum + reps, 0);
    const rows = sharers
      .filter(({ athletes }) => athletes.length === 1)
      .map(({ name, due }) => ({ name, over: (run.repsBy[name] ?? 0) - due * all }))
      .sort((a, b) => b.over - a.over);
    const worst = furthestOff(run.repsBy, sharers);
    if (worst && Math.abs(worst.off) <= within) {
      if (sizes.size === 0 || breaksMore(simulated, changed(), timeline)) return null;
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
  return leaf.kind === "rest" || size === undefined
    ? leaf
    : { ...leaf, works: leaf.works.map((work) => ({ ...work, ladders: work.ladders.map(() => [size]) })) };
}
