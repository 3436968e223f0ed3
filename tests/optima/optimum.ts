/** The optimum of an event: the best of every lane of every pairing, put together as a plan for the clock to run. */
import type { EventSpec } from "../../src/3-plan/event.js";
import type { PlanSpec, Step } from "../../src/3-plan/plan.js";
import type { Team } from "../../src/3-plan/world.js";
import type { Constants } from "../../src/3-plan/assumptions.js";
import type { Abilities } from "../../src/4-timeline/ability.js";
import { type Lane, spaces, stepsOf } from "./choices.js";
import { type After, Exhaustion, type Leaf, type Problem } from "./exhaust.js";

export interface Optimum {
  readonly score: number;
  readonly plan: PlanSpec;
  readonly turns: number;
  readonly plans: number;
  /** Plans with the score that they were counted to have, for the clock to check. */
  readonly samples: readonly { readonly plan: PlanSpec; readonly score: number }[];
}

const nothingAfter: After = { of: () => 0, least: 0 };
/** How much further each look goes than the one before, as a part of the time. */
const widerBy = 1.04;

/** `known`: where the optimum is thought to be. What is better is looked for there as well; what is worse, only if nothing is as good. */
export function optimumOf(event: EventSpec, team: Team, abilities: Abilities, constants: Constants, known: number | null = null): Optimum {
  const empty: PlanSpec = { name: "Best", event, team, steps: [], pairs: [], rules: [], cues: [], nodes: [] };
  const problem: Problem = { plan: empty, abilities, constants };
  let [turns, plans] = [0, 0];
  const samples: { readonly plan: PlanSpec; readonly score: number }[] = [];
  const scoreOf = (cost: number): number => (event.score === "reps" ? -cost : cost);

  /** The best of several lanes that are each other's alternatives: ever further from the least that can be. */
  const bestOf = (
    lanes: readonly Lane[],
    after: After,
    firstCast: string | null,
    from = Number.NEGATIVE_INFINITY,
  ): { readonly lane: Lane; readonly leaf: Leaf } | null => {
    const tries = lanes.map((lane) => ({ lane, exhaustion: new Exhaustion(lane, problem, after, firstCast) }));
    let best: { readonly lane: Lane; readonly leaf: Leaf } | null = null;
    let lessThan = Math.max(from, Math.min(...tries.map(({ exhaustion }) => exhaustion.atLeast)));
    for (
      ;
      !best && lessThan <= (event.score === "reps" ? 0 : (event.capS ?? 0));
      lessThan = event.score === "reps" ? lessThan + 1 : lessThan * widerBy
    ) {
      let limit = lessThan;
      for (const { lane, exhaustion } of tries) {
        exhaustion.run(limit);
        if (!exhaustion.best) continue;
        best = { lane, leaf: exhaustion.best };
        limit = exhaustion.best.cost;
        exhaustion.best = null;
      }
    }
    for (const { lane, exhaustion } of tries) {
      turns += exhaustion.turns;
      plans += exhaustion.plans;
      const alone = event.stages.length + event.windows.length + event.stations.length === 1;
      if (alone) for (const leaf of exhaustion.samples) samples.push({ plan: planOf(empty, [{ lane, leaf }]), score: scoreOf(leaf.cost) });
    }
    return best;
  };

  const all = spaces(event, team);
  const parallel = event.windows.length > 0 || event.stations.length > 0;
  let chosen: readonly { readonly lane: Lane; readonly leaf: Leaf }[] = [];
  if (parallel) {
    // Lanes and windows share no athlete and no target: each is best alone.
    if (event.score !== "reps" || all.length !== 1) throw new Error("lanes are exhausted one by one, for reps and without pairs");
    chosen = (all[0] ?? []).flatMap((lane) => bestOf([lane], nothingAfter, null) ?? []);
  } else {
    const [stages] = [event.stages.length];
    if (stages > 2 || (stages > 1 && all.length > 1)) throw new Error("two stages at most, and then no pairs");
    const later = new Map<string, ReturnType<typeof bestOf>>();
    const second = all[0]?.[1];
    const then = (cast: string): ReturnType<typeof bestOf> => {
      if (!second) return null;
      if (!later.has(cast)) later.set(cast, bestOf([second], nothingAfter, cast));
      return later.get(cast) ?? null;
    };
    const afterOf = (cast: string): number => (second ? (then(cast)?.leaf.cost ?? Number.POSITIVE_INFINITY) : 0);
    const after: After = { of: afterOf, least: second ? (bestOf([second], nothingAfter, null)?.leaf.cost ?? 0) : 0 };
    // A little more than what is known in hundredths, a rep less than what is known in reps.
    const from = known === null ? Number.NEGATIVE_INFINITY : event.score === "reps" ? 1 - known : known + 0.01;
    const first = bestOf(
      all.flatMap(([lane]) => lane ?? []),
      after,
      null,
      from,
    );
    const next = first && then(first.leaf.lastCast);
    chosen = first ? [first, ...(next ? [next] : [])] : [];
  }
  const cost = parallel ? chosen.reduce((sum, { leaf }) => sum + leaf.cost, 0) : (chosen[0]?.leaf.cost ?? Number.POSITIVE_INFINITY);
  return { score: scoreOf(cost), plan: planOf(empty, chosen), turns, plans, samples };
}

/** The lanes' plans as one plan of the event. */
function planOf(empty: PlanSpec, chosen: readonly { readonly lane: Lane; readonly leaf: Leaf }[]): PlanSpec {
  let id = 0;
  const nextId = (): number => (id += 1);
  const bodies = chosen.map(({ lane, leaf }) => ({ lane, body: stepsOf(leaf.lines, leaf.restS, nextId) }));
  const { stages, windows, stations } = empty.event;
  if (stations.length > 0)
    return {
      ...empty,
      steps: [
        { kind: "lanes", lanes: bodies.map(({ lane: { station }, body }) => ({ id: nextId(), name: station ?? "", station, body })) },
      ],
    };
  const steps = bodies.flatMap(({ lane, body }): readonly Step[] => {
    if (lane.window !== null) return [{ kind: "window", id: nextId(), window: lane.window, body }];
    return stages.length > 1 ? [{ kind: "stage", id: nextId(), stage: lane.stage, body }] : body;
  });
  return { ...empty, steps: windows.length > 0 || stages.length > 0 ? steps : [] };
}
