import { clock, percent, plain } from "../0-base/quantity.js";
import type { PlanSpec } from "../3-plan/plan.js";
import { chanceToBeat, type Days, spreadOf } from "../4-timeline/spread.js";
import { type Answer, shownAs } from "./answer.js";

/** The score of one day. */
export function dayScore(kind: Days["kind"], value: number): string {
  return kind === "reps" ? plain(value) : Number.isFinite(value) ? clock(value) : "not done";
}

/** How a plan's score spreads, in a phrase: eight days of ten lie between the two numbers. */
export function spreadWords(days: Days): string {
  const { p10, p90, finishes } = spreadOf(days);
  if (!Number.isFinite(p10) && !Number.isFinite(p90)) return finishes > 0 ? `not done on most days; ${percent(finishes)} of days finish` : "not done on any day";
  const inside = finishes < 0.995 ? `${percent(finishes)} of days finish` : null;
  return shownAs(`${dayScore(days.kind, p10)}–${dayScore(days.kind, p90)} on 8 days of 10`, inside);
}

/** Chances less than this are not worth a word beside a line. */
const worthSaying = 0.05;

/** A plan's answers with what its days add: the spread at the plan, the chance of a miss or a drop at each turn. */
export function withDays(answers: readonly Answer[], plan: PlanSpec, days: Days, lineOf: (offset: number) => number): readonly Answer[] {
  const planLine = lineOf(plan.nodes[0]?.span.from ?? 0);
  const said = new Map<number, readonly string[]>();
  plan.nodes.forEach(({ span }, step) => {
    const chances = [["miss", days.missed.get(step)], ["drop", days.dropped.get(step)]] as const;
    const words = chances.flatMap(([what, count]) => ((count ?? 0) / days.scores.length >= worthSaying ? [`${what} ${percent((count ?? 0) / days.scores.length)}`] : []));
    if (words.length > 0) said.set(lineOf(span.from), words);
  });
  return answers.map((answer) => {
    const [score = "", ...rest] = answer.shown.split(" · ");
    if (answer.line === planLine) return { ...answer, shown: shownAs(score, spreadWords(days), ...rest) };
    const chances = said.get(answer.line);
    return chances ? { ...answer, shown: shownAs(score, ...chances, ...rest.filter((part) => part !== "miss" && part !== "drop")) } : answer;
  });
}

/** The answer of a `compare` line with how often each plan beats the next, on the same days; null days are not drawn yet. */
export function withBeats(answers: readonly Answer[], names: readonly string[], days: readonly (Days | null)[]): readonly Answer[] {
  const beats = names.slice(1).flatMap((name, at): readonly string[] => {
    const [one, other] = [days[at], days[at + 1]];
    return one && other && one.kind === other.kind ? [`${names[at] ?? ""} beats ${name} on ${percent(chanceToBeat(one, other))} of days`] : [];
  });
  return answers.map((answer) => ({ ...answer, shown: shownAs(...beats, answer.shown) }));
}
