import type { EventSpec } from "../3-plan/event.js";
import { mayBePair, type PlanSpec, turnsOf } from "../3-plan/plan.js";
import { instantS } from "../4-timeline/lanes.js";
import type { TurnRun } from "../4-timeline/timeline.js";

/**
 * A turn that is not its workers' own where those of an event take turns: the same as before, on with a round that others had
 * begun, several rounds in one turn, or while others are at work.
 */
export interface OutOfTurn {
  readonly run: TurnRun;
  /** Those whose turn it is not. */
  readonly who: readonly string[];
  readonly how: "again" | "begun round" | "several rounds" | "beside";
}

/** The first such turn of each line, in order of time: a turn is a round where the stage is made of rounds. */
export function outOfTurn(plan: PlanSpec, turns: readonly TurnRun[]): readonly OutOfTurn[] {
  if (!plan.event.alternate) return [];
  const found = new Map<number, OutOfTurn>();
  const inOrder = [...turns].sort((a, b) => a.startS - b.startS);
  const namesOf = ({ athletes }: TurnRun): readonly string[] => athletes.map(({ name }) => name);
  const apart = mayStandApart(plan);
  const severalRounds = new Set(turnsOf(plan.steps).flatMap(({ id, rounds }) => ((rounds ?? 1) > 1 ? [id] : [])));
  const itemOf = itemsOf(plan);
  const oneByOne = isOneByOne(plan.event);
  let busyS = 0;
  inOrder.forEach((run, at) => {
    const beside = oneByOne && run.startS < busyS - instantS;
    busyS = Math.max(busyS, run.endS);
    if (found.has(run.step)) return;
    const who = namesOf(run);
    const before = inOrder[at - 1];
    if (severalRounds.has(run.step) && run.counted > 1) found.set(run.step, { run, who, how: "several rounds" });
    else if (beside) found.set(run.step, { run, who, how: "beside" });
    else if (before) {
      const [item, itemBefore] = [itemOf(run), itemOf(before)];
      const sameRound = item !== null && itemBefore !== null && item > 0 && item >= itemBefore;
      const twice = namesOf(before).filter((name) => who.includes(name));
      const sameCast = twice.length === who.length && twice.length === before.athletes.length;
      if (sameRound && !sameCast) found.set(run.step, { run, who, how: "begun round" });
      if (!sameRound && (apart ? twice.length > 0 : sameCast)) found.set(run.step, { run, who: twice, how: "again" });
    }
  });
  return [...found.values()];
}

/** Whether no two turns of an event in which athletes or pairs take turns may run side by side. */
function isOneByOne({ working, alternate, stations }: EventSpec): boolean {
  return working === null ? stations.length === 0 : working.most <= (working.pairs || alternate === "athletes" ? 1 : 2);
}

/** Whether the team has two pairs that share nobody: where not, somebody works twice running whatever is planned. */
function mayStandApart({ event, team }: PlanSpec): boolean {
  if (event.alternate === "athletes") return true;
  const names = team.athletes.map(({ name }) => name);
  const pairs = names.flatMap((one, at) =>
    names.slice(at + 1).flatMap((other) => (mayBePair(event, team, one, other) ? [[one, other]] : [])),
  );
  return pairs.some((pair, at) => pairs.slice(at + 1).some((other) => !other.some((name) => pair.includes(name))));
}

/** Which item of its stage's round a turn is; null where it is a whole round, or the stage has none. */
function itemsOf(plan: PlanSpec): (run: TurnRun) => number | null {
  const turns = new Map(turnsOf(plan.steps).map((turn) => [turn.id, turn]));
  return ({ step, stage }) => {
    const [spec, turn] = [plan.event.stages[stage], turns.get(step)];
    if (!spec?.rounds || !turn || turn.rounds !== null) return null;
    return spec.items.findIndex(({ movement }) => movement === turn.works[0]?.movement);
  };
}
