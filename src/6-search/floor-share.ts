/** Sharing work out so that it takes the least of the floor: who has the cheapest next unit does it, since costs only rise. */

/** Somebody who may do units of some work. */
export interface FloorUser {
  /** What so many units take of the floor at least, s; each one no less than the one before. */
  readonly cost: (units: number, seconds: number) => number;
  /** Most units in some seconds, whatever the floor. */
  readonly most: (seconds: number) => number;
}

/** Units given out one by one. */
export class FloorShare {
  private readonly shares: readonly { readonly user: FloorUser; readonly most: number; units: number; tookS: number; nextS: number }[];

  constructor(
    users: readonly FloorUser[],
    private readonly seconds: number,
  ) {
    this.shares = users.map((user) => ({ user, most: user.most(seconds), units: 0, tookS: 0, nextS: user.cost(1, seconds) }));
  }

  /** The floor that the next unit takes at least; null where nobody has a whole one left. */
  next(): number | null {
    const cheapest = this.cheapest();
    return cheapest && cheapest.nextS - cheapest.tookS;
  }

  take(): void {
    const cheapest = this.cheapest();
    if (!cheapest) return;
    cheapest.units += 1;
    cheapest.tookS = cheapest.nextS;
    cheapest.nextS = cheapest.user.cost(cheapest.units + 1, this.seconds);
  }

  /** What is left of everybody's next unit, where none is whole. */
  parts(): number {
    return this.shares.reduce((sum, { most, units }) => sum + Math.max(0, most - units), 0);
  }

  private cheapest(): (typeof this.shares)[number] | null {
    let cheapest = null;
    for (const share of this.shares)
      if (share.units + 1 <= share.most && (!cheapest || share.nextS - share.tookS < cheapest.nextS - cheapest.tookS)) cheapest = share;
    return cheapest;
  }
}
