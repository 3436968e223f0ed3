/**
 * The best that could be: a score no plan can pass under the model, however it pairs, splits, holds and rests.
 *
 * Derivation. Let T be the time a piece of work may take, and x_a the reps that athlete a spends in it.
 *  1. Nobody passes the own ceiling: x_a ≤ C_a(T), the most reps a fresh reserve yields in T (`ceilingReps`): M without
 *     pause, then riding the limit. Tired, in step with another, or holding in between, it is less.
 *  2. A rep takes at least its fresh cycle: no rep is faster than c_a, in step with another no faster than the slower.
 *  3. At most P athletes work at once: what the event allows, and never the K who hold (reps count while they do). So
 *     the working time of all is at most P·T, and of one at most T.
 * The most reps under 1 to 3 is a fractional knapsack: time goes first to whoever needs least of it for a rep. Where a
 * rep takes two at once and counts once, it spends two athletes' time and both their reserves: half of each bound, with
 * the second fastest cycle of the team as the least a rep can take. Handovers, misses and what one stage costs the next
 * only take away. For fixed work the bound is the least T at which the most reps reach the target, summed over stages,
 * which follow one another; for fixed time it is the most reps, summed over stages, windows and stations. What changes of
 * hands, slow recovery and whole rounds cost at least is a second bound (`floor-bound.ts`); the stricter counts.
 */
import type { Constants } from "../3-plan/assumptions.js";
import type { EventSpec, Item, StageSpec } from "../3-plan/event.js";
import { loadFor, mayBePair, namesOf, workingIn } from "../3-plan/plan.js";
import type { Team } from "../3-plan/world.js";
import type { Abilities } from "../4-timeline/ability.js";
import { ceilingReps, type Reserve } from "../4-timeline/models/reserve.js";
import { floorBound, repsInRound } from "./floor-bound.js";

/** s for fixed work (no plan is faster), reps for fixed time (no plan has more); null where the event sets neither. */
export function ceiling(event: EventSpec, team: Team, abilities: Abilities, constants: Constants): number | null {
  const everyone = team.athletes.map(({ name }) => name);
  const stated = workingIn(event);
  const atOnce = stated ? stated.most * (stated.pairs ? 2 : 1) : everyone.length;
  const reserveOf: ReserveOf = (name, item) => abilities.movement(name, item.movement, loadFor(team, name, item.load)).reserve;
  const mayPair = (one: string, other: string): boolean => mayBePair(event, team, one, other);
  const bound = (stage: StageSpec, athletes: readonly string[], working: number): Most => {
    const places = Math.max(0, Math.min(working, athletes.length - (stage.hold?.count ?? 0)));
    const byFloor = floorBound(stage, { event, athletes, places, reserveOf, mayPair, constants });
    return (seconds) => Math.min(mostUnits(stage, athletes, seconds, places, reserveOf, constants), byFloor(seconds));
  };
  const mostBy = (stage: StageSpec): Most => {
    if (event.windows.length > 0) {
      const windows = event.windows.map((window) => ({ ...window, most: bound(stage, namesOf(team, window.category), atOnce) }));
      return (seconds) => windows.reduce((sum, { most, startS, endS }) => sum + most(Math.max(0, Math.min(seconds, endS) - startS)), 0);
    }
    if (event.stations.length > 0) {
      const stations = event.stations.map(({ category }) => bound(stage, namesOf(team, category), 1));
      return (seconds) => stations.reduce((sum, most) => sum + most(seconds), 0);
    }
    return bound(stage, stage.category ? namesOf(team, stage.category) : everyone, atOnce);
  };
  if (event.score === "reps") {
    if (event.capS === null) return null;
    let [most, leftS] = [0, event.capS];
    for (const stage of event.stages) {
      if (stage.scored) most += Math.min(repsOf(stage), mostBy({ ...stage, target: null })(Math.min(leftS, stage.withinS ?? leftS)));
      // The next one begins when this one has its target: of a buy-in's time nothing is left for what follows.
      if (stage.target !== null && event.windows.length === 0) leftS = Math.max(0, leftS - leastTime(mostBy(stage), stage.target));
    }
    return most;
  }
  if (event.stages.some(({ target }) => target === null)) return null;
  const least = event.stages.map((stage) => leastTime(mostBy(stage), stage.target ?? 0));
  // A stage that begins later meets other windows: then the longest alone is sure.
  if (event.windows.length > 0) return Math.max(...least);
  const pauses = event.stages.slice(0, -1).reduce((sum, { restS }) => sum + restS, 0);
  return least.reduce((sum, seconds) => sum + seconds, pauses);
}

/** The reps that a stage's target asks. */
function repsOf({ target, rounds, items }: StageSpec): number {
  if (target === null) return Number.POSITIVE_INFINITY;
  return rounds ? target * repsInRound(items) : target;
}

/** The most units in some seconds. */
type Most = (seconds: number) => number;

type ReserveOf = (athlete: string, item: Item) => Reserve;

/** The most units — reps, or rounds where a target counts them — in some seconds. Rises with the seconds. */
function mostUnits(
  stage: StageSpec,
  athletes: readonly string[],
  seconds: number,
  places: number,
  reserveOf: ReserveOf,
  constants: Constants,
): number {
  const shared = stage.items.some(({ how }) => how === "in sync" || how === "together");
  const inRounds = stage.rounds && stage.target !== null;
  if (!inRounds) {
    const reps = stage.items.map((item) =>
      knapsack(
        athletes.map((name) => reserveOf(name, item)),
        seconds,
        places,
        shared && stage.items.length === 1 ? pairStep(item, athletes, reserveOf, constants) : null,
      ),
    );
    // Several movements share the time: no more than the time would hold of the quickest of them, nor than all reserves yield.
    if (stage.items.length === 1) return reps[0] ?? 0;
    const quickest = Math.min(...stage.items.flatMap((item) => athletes.map((name) => reserveOf(name, item).cycleS)));
    return Math.min(
      reps.reduce((sum, most) => sum + most, 0),
      (places * seconds) / quickest,
    );
  }
  const byPair = stage.items.some(({ how }) => how !== null);
  const least = roundSeconds(stage, athletes, byPair, reserveOf, constants);
  const crews = byPair ? Math.floor(places / 2) : places;
  const reserves = athletes.reduce(
    (sum, name) => sum + Math.min(...stage.items.map((item) => ceilingReps(reserveOf(name, item), seconds) / Math.max(1, item.count ?? 1))),
    0,
  );
  return Math.min((crews * seconds) / least, byPair ? reserves / 2 : reserves);
}

/** Least seconds of a rep that two do at once: the second fastest cycle, and what being in step costs. */
function pairStep(item: Item, athletes: readonly string[], reserveOf: ReserveOf, constants: Constants): number {
  const cycles = athletes.map((name) => reserveOf(name, item).cycleS).sort((a, b) => a - b);
  return (cycles[1] ?? Number.POSITIVE_INFINITY) + (item.how === "in sync" ? constants["step cost"] : 0);
}

/** Least seconds of a round: every rep of it at the fresh cycle of the best athlete or pair for it. */
function roundSeconds(
  { items }: StageSpec,
  athletes: readonly string[],
  byPair: boolean,
  reserveOf: ReserveOf,
  constants: Constants,
): number {
  return items.reduce((sum, item) => {
    const fastest = byPair
      ? pairStep(item, athletes, reserveOf, constants)
      : Math.min(...athletes.map((name) => reserveOf(name, item).cycleS));
    return sum + (item.count ?? 0) * fastest;
  }, 0);
}

/** The fractional knapsack of the derivation; `step` is the least time of a rep that takes two at once, null where one does. */
function knapsack(reserves: readonly Reserve[], seconds: number, places: number, step: number | null): number {
  const most = reserves
    .map((reserve) => ({ cycleS: reserve.cycleS, reps: Math.min(ceilingReps(reserve, seconds), seconds / reserve.cycleS) }))
    .sort((a, b) => a.cycleS - b.cycleS);
  if (step !== null) return Math.min(most.reduce((sum, { reps }) => sum + reps, 0) / 2, (Math.floor(places / 2) * seconds) / step);
  let [timeS, total] = [places * seconds, 0];
  for (const { cycleS, reps } of most) {
    const done = Math.min(reps, timeS / cycleS);
    total += done;
    timeS -= done * cycleS;
  }
  return total;
}

function leastTime(most: Most, target: number): number {
  let [low, high] = [0, 1];
  while (most(high) < target && high < 1e6) high *= 2;
  for (let step = 0; step < 40; step += 1) {
    const middle = (low + high) / 2;
    if (most(middle) < target) low = middle;
    else high = middle;
  }
  return low;
}
