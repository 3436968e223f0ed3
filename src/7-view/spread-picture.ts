import { percent } from "../0-base/quantity.js";
import { type Days, spreadOf } from "../4-timeline/spread.js";
import { dayScore } from "./spread-words.js";

/** How a plan's score spreads over days: equal stretches of it, each with its share of the days. */
export interface SpreadPicture {
  readonly bars: readonly { readonly from: number; readonly to: number; readonly share: number; readonly words: string }[];
  readonly p10: number;
  readonly p90: number;
  readonly words: string;
}

const bars = 16;

/** Null where no day reaches the target. Days without a score stand in no bar; the words tell of them. */
export function spreadPicture(days: Days): SpreadPicture | null {
  const scores = [...days.scores].filter(Number.isFinite);
  const [least, most] = [Math.min(...scores), Math.max(...scores)];
  if (scores.length === 0) return null;
  const width = Math.max(1, Math.ceil((most - least + 1e-9) / bars));
  const counts = Array.from({ length: Math.floor((most - least) / width) + 1 }, () => 0);
  for (const score of scores) counts[Math.floor((score - least) / width)] = (counts[Math.floor((score - least) / width)] ?? 0) + 1;
  const { p10, p90, finishes } = spreadOf(days);
  return {
    bars: counts.map((count, at) => {
      const [from, to] = [least + at * width, least + (at + 1) * width];
      const share = count / days.scores.length;
      return { from, to, share, words: `${dayScore(days.kind, from)}–${dayScore(days.kind, to)}: ${percent(share)} of days` };
    }),
    p10,
    p90,
    words: `Eight days of ten lie between ${dayScore(days.kind, p10)} and ${dayScore(days.kind, p90)}.${finishes < 0.995 ? ` ${percent(finishes)} of days finish inside the cap.` : ""}`,
  };
}
