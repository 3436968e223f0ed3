import type { Item } from "../3-plan/event.js";
import { type PlanSpec, type Step, type Turn, turnsOf } from "../3-plan/plan.js";
import { askedIn } from "../4-timeline/shared-round.js";
import type { TurnRun } from "../4-timeline/timeline.js";

/** A turn that does something else than its round wants next: what that is, how much of it, and what is done. */
export interface OutOfRound {
  readonly step: number;
  readonly wanted: string;
  readonly left: number;
  readonly done: string;
}

/** The first such turn of each stage of rounds, in each lane and window: these have rounds of their own under way. */
export function outOfRound(plan: PlanSpec, runs: readonly TurnRun[]): readonly OutOfRound[] {
  // The search asks this of every plan that it tries.
  if (!plan.event.stages.some(({ rounds }) => rounds)) return [];
  const turns = new Map(turnsOf(plan.steps).map((turn) => [turn.id, turn]));
  const byStage = plan.event.stages.map(({ rounds }, stage) => (rounds ? runs.filter((one) => one.stage === stage) : []));
  return strandsOf(plan.steps).flatMap((strand) =>
    byStage.flatMap((own, stage) =>
      firstOf(
        plan.event.stages[stage]?.items ?? [],
        own.filter(({ step }) => strand.has(step)).toSorted((a, b) => a.startS - b.startS),
        turns,
      ),
    ),
  );
}

/** The steps of each row in which rounds go on from one to the next: a lane, a window, and what stands outside of all. */
function strandsOf(steps: readonly Step[]): readonly ReadonlySet<number>[] {
  const inner: ReadonlySet<number>[] = [];
  const own = new Set<number>();
  const walk = (body: readonly Step[]): void => {
    for (const step of body) {
      if (step.kind === "lanes") inner.push(...step.lanes.flatMap((lane) => strandsOf(lane.body)));
      else if (step.kind === "window") inner.push(...strandsOf(step.body));
      else if (step.kind === "turn") own.add(step.id);
      else if (step.kind !== "rest") walk(step.body);
    }
  };
  walk(steps);
  return [own, ...inner];
}

function firstOf(items: readonly Item[], own: readonly TurnRun[], turns: ReadonlyMap<number, Turn>): readonly OutOfRound[] {
  let [at, done] = [0, 0];
  for (const { step, repEndsS } of own) {
    const turn = turns.get(step);
    const item = items[at];
    const [work] = turn?.works ?? [];
    if (!turn || !item || !work) continue;
    const whole = turn.rounds !== null;
    const asked = askedIn(item, turn);
    if (whole ? at > 0 || done > 0 : work.movement !== item.movement)
      return [{ step, wanted: item.movement, left: asked - done, done: whole ? "a round" : work.movement }];
    if (whole) continue;
    done += repEndsS.length;
    if (done > asked) {
      const next = items[(at + 1) % items.length];
      return [{ step, wanted: next?.movement ?? "", left: next?.count ?? 1, done: `more ${work.movement} than the ${asked} of a round` }];
    }
    if (done === asked) [at, done] = [(at + 1) % items.length, 0];
  }
  return [];
}
