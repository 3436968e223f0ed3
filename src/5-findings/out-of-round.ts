import { type PlanSpec, turnsOf } from "../3-plan/plan.js";
import { askedIn } from "../4-timeline/shared-round.js";
import type { TurnRun } from "../4-timeline/timeline.js";

/** A turn that does something else than its round wants next: what that is, how much of it, and what is done. */
export interface OutOfRound {
  readonly step: number;
  readonly wanted: string;
  readonly left: number;
  readonly done: string;
}

/** The first such turn of each stage of rounds. */
export function outOfRound(plan: PlanSpec, runs: readonly TurnRun[]): readonly OutOfRound[] {
  // The search asks this of every plan that it tries.
  if (!plan.event.stages.some(({ rounds }) => rounds)) return [];
  const turns = new Map(turnsOf(plan.steps).map((turn) => [turn.id, turn]));
  return plan.event.stages.flatMap(({ items, rounds }, stage): readonly OutOfRound[] => {
    let [at, done] = [0, 0];
    const own = rounds ? runs.filter((one) => one.stage === stage).toSorted((a, b) => a.startS - b.startS) : [];
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
  });
}
