/** Sharing work out so that it takes the least of the floor: who has the cheapest next unit does it, since costs only rise. */
import { type FloorLine, leastFloor } from "./floor-line.js";

/** Somebody who may do units of work: of each movement in one, the reps and what they take at least. */
export interface Sharer {
  readonly items: readonly { readonly reps: number; readonly lines: readonly FloorLine[] }[];
  /** Most units in some seconds, whatever the floor. */
  readonly most: (seconds: number) => number;
}

/** The most units in some seconds that `floorS` allows, with `eachS` besides for each; a part of the next one included. */
export function mostOnFloor(sharers: readonly Sharer[], floorS: number, seconds: number, eachS: number): number {
  const shares = sharers.map((sharer) => ({
    sharer,
    most: sharer.most(seconds),
    units: 0,
    tookS: 0,
    nextS: costOf(sharer, 1, seconds, eachS),
  }));
  let [units, leftS] = [0, floorS];
  for (;;) {
    let cheapest = null;
    for (const share of shares)
      if (share.units + 1 <= share.most && (!cheapest || share.nextS - share.tookS < cheapest.nextS - cheapest.tookS)) cheapest = share;
    // Nobody has a whole unit left: a part of one for each is no more than this.
    if (!cheapest) return units + shares.reduce((sum, share) => sum + Math.max(0, share.most - share.units), 0);
    const tookS = cheapest.nextS - cheapest.tookS;
    if (tookS > leftS) return units + leftS / tookS;
    units += 1;
    leftS -= tookS;
    cheapest.units += 1;
    cheapest.tookS = cheapest.nextS;
    cheapest.nextS = costOf(cheapest.sharer, cheapest.units + 1, seconds, eachS);
  }
}

function costOf({ items }: Sharer, units: number, seconds: number, eachS: number): number {
  return items.reduce((sum, { reps, lines }) => sum + leastFloor(lines, reps * units, seconds), eachS * units);
}
