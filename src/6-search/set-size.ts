import type { SetSize } from "./draft.js";

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
  if (size.kind === "round") return size;
  if (size.kind === "percent") {
    let most = mostPercent;
    const percents = size.percents.map(
      (percent, pass) => (most = Math.min(most, only === null || only === pass ? Math.max(leastPercent, percent + by) : percent)),
    );
    return { kind: "percent", percents };
  }
  return { ...size, steps: size.steps.map((reps) => Math.max(1, reps + Math.sign(by))) };
}
