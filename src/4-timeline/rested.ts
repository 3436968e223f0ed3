import type { Waited } from "./lanes.js";
import { restUntil } from "./models/reserve.js";
import type { ReadySet } from "./turn.js";

/** When a rest that was asked for at `sinceS` is over for some of a turn's athletes; ready for all its sets, not before `fromS`. */
export function restedAt(
  sets: readonly ReadySet[],
  pass: number,
  until: Waited,
  sinceS: number,
  who: readonly string[],
  fromS: number,
): number {
  if (until.kind === "time") return sinceS + until.seconds;
  if (until.kind === "ready") return sets.reduce((readyS, set) => Math.max(readyS, fromS + set.waitFor(pass, who, fromS)), fromS);
  let atS = 0;
  for (const { athlete, atS: sinceLast, pools, reserve } of sets[0]?.bodies ?? []) {
    if (who.includes(athlete)) atS = Math.max(atS, sinceLast + restUntil(pools, reserve, until.fraction));
  }
  return atS;
}
