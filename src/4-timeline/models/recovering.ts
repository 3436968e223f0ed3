import type { Constants } from "../../3-plan/assumptions.js";
import { type Reserve, reserveOf } from "./reserve.js";

/** Factors between which a recovery is looked up, in steps of their logarithm: four deviations either way. */
const [reach, step] = [1.6, 0.1];

/**
 * A reserve with another recovery, by its factor. The capacity hangs on the recovery too and is solved for: it is looked
 * up between solutions made once, when the first is asked for, since ten thousand days each ask anew.
 */
export function recoveringFrom(tested: Reserve, constants: Constants): (factor: number) => Reserve {
  const made: Reserve[] = [];
  const at = (place: number): Reserve =>
    (made[place] ??= reserveOf({ ...tested, recovery: tested.recovery * Math.exp(place * step - reach) }, constants));
  return (factor) => {
    const where = Math.min(2 * reach, Math.max(0, Math.log(factor) + reach)) / step;
    const [low, part] = [Math.floor(where), where - Math.floor(where)];
    const [before, after] = [at(low), at(Math.min(low + 1, Math.round((2 * reach) / step)))];
    const between = (of: "capacity" | "fastRate" | "slowRate"): number => before[of] + part * (after[of] - before[of]);
    return { ...before, capacity: between("capacity"), fastRate: between("fastRate"), slowRate: between("slowRate") };
  };
}
