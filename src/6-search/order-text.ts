import { addDays, daysBetween } from "../0-base/zoned.js";
import type { WeekLine } from "../3-plan/ast.js";
import { whenSpan } from "../5-findings/placing.js";
import type { WeekRun } from "../4-timeline/week.js";
import type { Order } from "./order.js";

/**
 * A week's block with its sessions in another order: each session's line keeps its words and its comment and gets another
 * day and hour, days between without an event say rest, all other lines stay as they are.
 */
export function orderedText(text: string, line: WeekLine, { sessions }: WeekRun, { hours }: Order): string {
  const lines = text.split("\n");
  const starts = lines.map((_, at) => lines.slice(0, at).reduce((sum, one) => sum + one.length + 1, 0));
  const lineOf = (offset: number): number => starts.findLastIndex((start) => start <= offset);
  const dayLines = line.body.flatMap((one) => (one.kind === "day" ? [lineOf(one.span.from)] : []));
  const [first, last] = [dayLines[0] ?? lines.length, dayLines.at(-1) ?? 0];
  const margin = /^[ \t]*/.exec(lines[first] ?? "  ")?.[0] ?? "  ";
  const placed = sessions
    .flatMap(({ session }, at) => {
      const hour = hours[at];
      const typed = lines[lineOf(session.span.from)] ?? "";
      const column = session.span.from - (starts[lineOf(session.span.from)] ?? 0);
      const said = whenSpan(session, text);
      return hour ? [{ ...hour, words: typed.slice(column + said.to - said.from).trim() }] : [];
    })
    .sort((a, b) => a.startS - b.startS);
  const events = placed.map(({ date, time, words }) => `${margin}${date} ${time.padStart(5, "0")}  ${words}`);
  const withRests = events.flatMap((event, at) => [
    event,
    ...restsBetween(placed[at]?.date, placed[at + 1]?.date).map((date) => restLine(date, margin, line, lines, lineOf)),
  ]);
  const kept = lines.slice(first, last + 1).filter((_, at) => !dayLines.includes(first + at));
  return [...lines.slice(0, first), ...kept, ...withRests, ...lines.slice(last + 1)].join("\n");
}

function restsBetween(from: string | undefined, to: string | undefined): readonly string[] {
  if (from === undefined || to === undefined) return [];
  return Array.from({ length: Math.max(0, daysBetween(from, to) - 1) }, (_, at) => addDays(from, at + 1));
}

/** The week's own rest line of that day, with its comment; else a plain one. */
function restLine(date: string, margin: string, line: WeekLine, lines: readonly string[], lineOf: (offset: number) => number): string {
  const own = line.body.find((one) => one.kind === "day" && one.rest && one.date === date);
  return own ? (lines[lineOf(own.span.from)] ?? "") : `${margin}${date}        rest`;
}
