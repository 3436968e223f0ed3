/**
 * The most units of a stage that the floor has room for. Each lane is one place after another: changes of hands, sets and
 * pauses inside them fill it, and there are no more lanes than may work at once. Two who work together take two places, a
 * rep of theirs is a rep of each, and takes no less than the next quickest who may be the partner. What one movement costs
 * another, and one stage the next, only takes away.
 */
import type { Constants } from "../3-plan/assumptions.js";
import type { EventSpec, Item, StageSpec } from "../3-plan/event.js";
import { ceilingReps, type Reserve } from "../4-timeline/models/reserve.js";
import { floorLines } from "./floor-line.js";
import { mostOnFloor, type Sharer } from "./floor-share.js";

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
  const { event, athletes, places, constants } = floor;
  const changeS = event.handoverS ?? constants.handover;
  const setUpS = event.setUpS ?? constants["set-up"];
  const inPairs = stage.items.some(({ how }) => how !== null);
  const many = stage.rounds && stage.items.length > 0;
  // Who is alone in a lane never changes hands.
  const changes = athletes.length > (inPairs ? 2 * Math.floor(places / 2) : places);
  const sharers = athletes.flatMap((name): readonly Sharer[] => {
    const items = stage.items.map((item) => {
      const reserve = floor.reserveOf(name, item);
      const reps = many ? (item.count ?? 1) : 1;
      const partnerS = inPairs ? leastPartner(name, item, floor) : 0;
      const lines = floorLines(reserve, {
        leastS: partnerS,
        addedS: item.how === "in sync" ? constants["step cost"] : 0,
        changeS: many ? setUpS : changes ? changeS + setUpS : 0,
        size: many ? reps : null,
      });
      return { reps, lines, reserve };
    });
    const most = (seconds: number): number => Math.min(...items.map(({ reps, reserve }) => ceilingReps(reserve, seconds) / reps));
    return items.some(({ lines }) => lines.length === 0) ? [] : [{ items, most }];
  });
  const eachS = many && changes && event.alternate !== null ? changeS : 0;
  // The first in each lane, and everybody's first stint, is there without them.
  const creditS = places * changeS + athletes.length * stage.items.length * setUpS;
  return (seconds) => {
    const units = mostOnFloor(sharers, places * seconds + creditS, seconds, eachS);
    const crews = inPairs ? units / 2 : units;
    if (!many) return inPairs && stage.items[0]?.how === "each" ? units : crews;
    return stage.target === null ? repsOf(stage, crews, places, inPairs) : crews;
  };
}

/** Reps in so many rounds; of the last one each crew may have done all but one. */
function repsOf({ items }: StageSpec, rounds: number, places: number, inPairs: boolean): number {
  const each = items.reduce((sum, { count, how }) => sum + (count ?? 0) * (how === "each" ? 2 : 1), 0);
  const crews = inPairs ? Math.floor(places / 2) : places;
  return Math.floor(rounds) * each + crews * (each - 1);
}

/** The quickest fresh rep of somebody who may work beside an athlete. */
function leastPartner(name: string, item: Item, { athletes, reserveOf, mayPair }: Floor): number {
  if (item.how === "each") return 0;
  return Math.min(...athletes.flatMap((other) => (other !== name && mayPair(name, other) ? [reserveOf(other, item).cycleS] : [])));
}
