import { hardestOpening, isLong } from "../5-findings/rules/opens-hard.js";
import { type DraftPlan, isFree, type SetSize, stepsFor } from "./draft.js";

export const mostPercent = 100;
const leastPercent = 5;
export const mostLadder = 4;

/** A ladder of percentages with one step more at its end, or one less. */
export function percentLadder(size: Extract<SetSize, { kind: "percent" }>, step: number): SetSize {
  const { percents } = size;
  const last = percents.at(-1) ?? 1;
  if (step < 0) return percents.length > 1 ? { ...size, percents: percents.slice(0, -1) } : size;
  return percents.length < mostLadder ? { ...size, percents: [...percents, Math.max(leastPercent, last - 2 * step)] } : size;
}

/** `only`: the step that changes; none: all. A ladder goes down. */
export function grown(size: SetSize, by: number, only: number | null = null): SetSize {
  if (!isFree(size)) return size;
  if (size.kind === "percent") {
    let most = mostPercent;
    const percents = size.percents.map(
      (percent, pass) => (most = Math.min(most, only === null || only === pass ? Math.max(leastPercent, percent + by) : percent)),
    );
    return { kind: "percent", percents };
  }
  return { ...size, steps: size.steps.map((reps) => Math.max(1, reps + Math.sign(by))) };
}

/** The largest first set of a plan in reps, as a part of the best of who does it. */
export function largestFirst({ blocks, best }: DraftPlan): number {
  const firsts = blocks.flatMap(({ stage, lanes }) =>
    lanes.flatMap(({ turns }) =>
      turns.flatMap(({ who, size }) =>
        !isFree(size) ? [] : who.map((name) => (stepsFor(size, best(name, stage))[0] ?? 0) / best(name, stage)),
      ),
    ),
  );
  return Math.max(0, ...firsts);
}

/** Whether it opens a long event with sets of which the trade warns. */
export function opensLarge(draft: DraftPlan): boolean {
  return isLong(draft.event) && largestFirst(draft) > hardestOpening + 1e-9;
}

/** Of a best set: nobody breaks so little. */
const shortPart = 0.3;

/** Whether a set is too short to be broken. */
export function isShort(reps: number, best: number): boolean {
  return reps <= shortPart * best;
}
