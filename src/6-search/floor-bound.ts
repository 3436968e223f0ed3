/**
 * The most units of a stage that the floor has room for. Each lane is one place after another: changes of hands, sets and
 * pauses inside them fill it, and there are no more lanes than may work at once. Two who work together take two places, a
 * rep of theirs is a rep of each, and takes no less than the next quickest who may be the partner. Where rounds are counted
 * nobody does part of one; where reps are, each movement of a round may be somebody else's, in sets of what the round asks
 * at most. What one movement costs another, and one stage the next, only takes away.
 */
import type { Constants } from "../3-plan/assumptions.js";
import type { EventSpec, Item, StageSpec } from "../3-plan/event.js";
import { ceilingReps, type Reserve } from "../4-timeline/models/reserve.js";
import { type FloorLine, floorLines, leastFloor } from "./floor-line.js";
import { FloorShare, type FloorUser } from "./floor-share.js";

export interface Floor {
  readonly event: EventSpec;
  readonly athletes: readonly string[];
  /** How many may work at once, holders left out. */
  readonly places: number;
  readonly reserveOf: (athlete: string, item: Item) => Reserve;
  readonly mayPair: (one: string, other: string) => boolean;
  readonly constants: Constants;
}

/** Reps in some seconds, or rounds where a target counts them. */
export function floorBound(stage: StageSpec, floor: Floor): (seconds: number) => number {
  const { items } = stage;
  const inPairs = items.some(({ how }) => how !== null);
  // Of two who share a movement of a round nothing is said.
  if (inPairs && items.some(({ how }) => how === null)) return () => Number.POSITIVE_INFINITY;
  if (!stage.rounds) return repsOf(items, inPairs, floor);
  return stage.target === null ? roundReps(items, inPairs, floor) : wholeRounds(items, inPairs, floor);
}

/** Of one movement: reps, one that two do together or in step being a rep of each. */
function repsOf([item]: readonly Item[], inPairs: boolean, floor: Floor): (seconds: number) => number {
  if (!item) return () => 0;
  const { changeS, setUpS } = between(floor);
  const users = usersOf(item, changes(inPairs, floor) ? changeS + setUpS : 0, { most: null, whole: false }, floor);
  return (seconds) => {
    const share = new FloorShare(users, seconds);
    const units = filled(share, floor.places * seconds + credit(1, floor));
    return inPairs && item.how !== "each" ? units / 2 : units;
  };
}

/** Whole rounds by an athlete, or by two. */
function wholeRounds(items: readonly Item[], inPairs: boolean, floor: Floor): (seconds: number) => number {
  const { changeS, setUpS } = between(floor);
  const eachS = changes(inPairs, floor) && floor.event.alternate !== null ? changeS : 0;
  const byItem = items.map((item) => ({
    reps: item.count ?? 1,
    users: usersOf(item, items.length > 1 ? setUpS : 0, { most: item.count ?? 1, whole: true }, floor),
  }));
  const users = floor.athletes.map((_, at): FloorUser => ({
    cost: (units, seconds) =>
      byItem.reduce((sum, { reps, users: one }) => sum + (one[at]?.cost(units * reps, seconds) ?? 0), units * eachS),
    most: (seconds) => Math.min(...byItem.map(({ reps, users: one }) => (one[at]?.most(seconds) ?? 0) / reps)),
  }));
  return (seconds) => {
    const units = filled(new FloorShare(users, seconds), floor.places * seconds + credit(items.length, floor));
    return inPairs ? units / 2 : units;
  };
}

/** Reps in rounds, each movement shared out by itself; of the last round each crew may have done all but one. */
function roundReps(items: readonly Item[], inPairs: boolean, floor: Floor): (seconds: number) => number {
  const { changeS, setUpS } = between(floor);
  const byItem = items.map((item) => ({
    reps: (item.count ?? 1) * (inPairs ? 2 : 1),
    users: usersOf(item, items.length > 1 ? setUpS : 0, { most: item.count ?? 1, whole: false }, floor),
  }));
  const each = repsInRound(items);
  const eachS = changes(inPairs, floor) && floor.event.alternate !== null ? changeS * (inPairs ? 2 : 1) : 0;
  const crews = inPairs ? Math.floor(floor.places / 2) : floor.places;
  return (seconds) => {
    const shares = byItem.map(({ reps, users }) => ({ reps, share: new FloorShare(users, seconds) }));
    let leftS = floor.places * seconds + credit(items.length, floor);
    for (let rounds = 0; ; rounds += 1) {
      leftS -= eachS;
      const done = shares.every(({ reps, share }) => {
        for (let rep = 0; rep < reps; rep += 1) {
          const nextS = share.next();
          if (nextS === null || nextS > leftS) return false;
          leftS -= nextS;
          share.take();
        }
        return true;
      });
      if (!done) return rounds * each + crews * (each - 1);
    }
  };
}

/** Two who each do a round's reps do them twice. */
export function repsInRound(items: readonly Item[]): number {
  return items.reduce((sum, { count, how }) => sum + (count ?? 1) * (how === "each" ? 2 : 1), 0);
}

/** Gives units out while the floor lasts; a part of the last one included. */
function filled(share: FloorShare, floorS: number): number {
  for (let [units, leftS] = [0, floorS]; ; units += 1) {
    const nextS = share.next();
    if (nextS === null) return units + share.parts();
    if (nextS > leftS) return units + leftS / nextS;
    leftS -= nextS;
    share.take();
  }
}

/** Who may do a movement, counted in reps, in sets of at most some reps or of exactly so many. */
function usersOf(
  item: Item,
  changeS: number,
  { most, whole }: { readonly most: number | null; readonly whole: boolean },
  floor: Floor,
): readonly FloorUser[] {
  return floor.athletes.map((name) => {
    const reserve = floor.reserveOf(name, item);
    const addedS = item.how === "in sync" ? floor.constants["step cost"] : 0;
    const lines: readonly FloorLine[] = floorLines(reserve, { leastS: leastPartner(name, item, floor), addedS, changeS, most, whole });
    return { cost: (reps, seconds) => leastFloor(lines, reps, seconds), most: (seconds) => ceilingReps(reserve, seconds) };
  });
}

function between({ event, constants }: Floor): { readonly changeS: number; readonly setUpS: number } {
  return { changeS: event.handoverS ?? constants.handover, setUpS: event.setUpS ?? constants["set-up"] };
}

/** Who is alone in a lane never changes hands. */
function changes(inPairs: boolean, { athletes, places }: Floor): boolean {
  return athletes.length > (inPairs ? 2 * Math.floor(places / 2) : places);
}

/** The first in each lane is there without a change of hands, and everybody's first set of a movement without taking it up again. */
function credit(movements: number, floor: Floor): number {
  const { changeS, setUpS } = between(floor);
  return floor.places * changeS + floor.athletes.length * movements * setUpS;
}

/** The quickest fresh rep of somebody who may work beside an athlete; 0 where each works alone. */
function leastPartner(name: string, item: Item, { athletes, reserveOf, mayPair }: Floor): number {
  if (item.how === null || item.how === "each") return 0;
  return Math.min(...athletes.flatMap((other) => (other !== name && mayPair(name, other) ? [reserveOf(other, item).cycleS] : [])));
}
