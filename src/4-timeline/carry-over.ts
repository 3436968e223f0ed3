import type { Constants } from "../3-plan/assumptions.js";
import type { Abilities } from "./ability.js";
import { Body, type Cost, type Grip } from "./body.js";
import { afterResting, enduranceOf } from "./models/hold.js";
import { exhaust, recover, within } from "./models/reserve.js";

/** Settles who of these costs whom; subjects without `asks` touch nobody. */
export function settleCosts(bodies: readonly Body[], grips: readonly Grip[], abilities: Abilities, constants: Constants): void {
  const all = [...bodies, ...grips];
  for (const from of all) {
    from.costs = all.flatMap((to): readonly Cost[] => {
      const share = to !== from && to.athlete === from.athlete ? constants["carry-over"] * abilities.overlap(from.subject, to.subject) : 0;
      return share > 0 ? [{ to, share }] : [];
    });
  }
}

/**
 * Takes from the others what a spent fraction of one reserve costs them, at the moment the work ends. A fraction is
 * reps / best unbroken set, or seconds held / seconds to failure; nobody is taken past the limit.
 */
export function carryOver(costs: readonly Cost[], fraction: number, atS: number): void {
  for (const { to, share } of costs) {
    const taken = share * fraction;
    if (to instanceof Body) {
      const { pools, reserve } = to;
      recover(pools, reserve, atS - to.atS);
      pools.fast += reserve.fastShare * taken * reserve.capacity;
      pools.slow += (1 - reserve.fastShare) * taken * reserve.capacity;
      if (!within(pools, reserve)) exhaust(pools, reserve);
    } else {
      const limit = 1 - to.hold.load;
      to.tired = Math.min(limit, afterResting(to.tired, to.hold, atS - to.atS) + taken * limit);
    }
    to.atS = Math.max(to.atS, atS);
  }
}

/** What some seconds of a hold cost the holder elsewhere: the fraction is of the time to failure. */
export function payForHold({ costs, hold }: Grip, heldS: number, atS: number): void {
  if (costs.length > 0) carryOver(costs, heldS / enduranceOf(hold), atS);
}
