/** The end of a plan that has no cap and no end: half a day, in s. */
export const horizonS = 43_200;
/** More turns and rests, and more misses and dropped holds, than any plan can mean. */
export const mostSteps = 5_000;
export const mostTroubles = 1_500;

/** Of the days of one plan few take so much longer than the one before. */
const longer = 1.25;
const usualS = 720;
/** Lanes that took no time may take some the next time. */
const leastS = 60;

/** How far lanes side by side are looked at to begin with, in s, by what they took the last time. */
export function firstLookS(lastedS: number | undefined): number {
  return longer * Math.max(leastS, lastedS ?? usualS);
}
