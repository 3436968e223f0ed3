import { clock, percent, plain } from "../0-base/quantity.js";
import { daysBetween } from "../0-base/zoned.js";
import { type LogSpec, readLog, type Seen } from "../3-plan/log.js";
import type { Abilities } from "../4-timeline/ability.js";
import { type Learning, type Learnt, learn, type TriedLog } from "../4-timeline/learn.js";
import type { AnsweredNotebook } from "./answered-block.js";
import type { LearntRow } from "./learnt-table.js";

/** What a notebook's logs say of its athletes. */
export interface LearntPage {
  readonly date: string;
  /** Rows that the logs move, the surest first. */
  readonly rows: readonly LearntRow[];
  /** What cannot be said as a whole rep, and logs that could not be used, in sentences. */
  readonly notes: readonly string[];
}

/** Learns from all logs of a notebook that are newer than what they speak of. */
export function learntFrom(notebook: AnsweredNotebook): LearntPage {
  const tried = triedLogs(notebook);
  const {
    abilities,
    world: { constants },
  } = notebook.kept;
  const date =
    tried
      .map(({ log }) => log.date)
      .sort()
      .at(-1) ?? "";
  if (tried.length === 0) return { date, rows: [], notes: ["No log here belongs to a plan that has a timeline."] };
  const learning = learn(tried, abilities, constants);
  const rows = learning.learnt.flatMap((one) => (counted(one, date, abilities) ? [] : rowsOf(one, tried, abilities, notebook)));
  const moved = rows.filter(({ from, to }) => from !== to);
  // From what cannot have been so nothing is learnt.
  return { date, rows: unlikelySeen(learning) ? [] : moved, notes: notesOn(learning, moved, rows.length, tried) };
}

/** A chance in a thousand, for one to eight directions (chi-squared tables); past it, two thirds more a direction. */
const unlikely = [10.8, 13.8, 16.3, 18.5, 20.5, 22.5, 24.3, 26.1];

/** Whether what was seen lies outside of what 999 days of 1,000 give. */
export function unlikelySeen({ distance, directions }: Learning): boolean {
  const most = unlikely[Math.min(directions, unlikely.length) - 1] ?? 0;
  return directions > 0 && distance > most + Math.max(0, directions - unlikely.length) * 2.5;
}

/** A form of less than this, either way, is not worth a word. */
const worthSaying = 0.01;

function notesOn(learning: Learning, moved: readonly LearntRow[], rows: number, tried: readonly TriedLog[]): readonly string[] {
  if (unlikelySeen(learning))
    return [
      "What was seen lies outside of what 999 days of 1,000 of these plans give. Nothing is learnt from it: check the times, and that the log names the plan that was done.",
    ];
  const { learnt, forms } = learning;
  const days = tried.flatMap(({ log: { date, plan } }, at) => {
    const own = forms
      .filter(({ log, factor }) => log === at && Math.abs(factor - 1) >= worthSaying)
      .map(({ athlete, factor }) => `${athlete} ${percent(Math.abs(factor - 1))} ${factor < 1 ? "weaker" : "stronger"}`);
    return own.length > 0 ? [`The day of ${date} (${plan}) most likely had ${own.join(", ")} than usual: form, not ability.`] : [];
  });
  return [
    ...days,
    ...(learnt.length === 0
      ? ["The logs say nothing about abilities that the tests did not: what was seen is what any usual day gives."]
      : []),
    ...(moved.length < rows ? ["Some abilities move by less than half a rep: the tests stand."] : []),
  ];
}

export function triedLogs({
  documents,
  kept: {
    world: { logs, athletes },
  },
}: AnsweredNotebook): readonly TriedLog[] {
  const plans = new Map(
    [...documents.values()].flatMap(({ blocks }) =>
      blocks.flatMap(({ plan }) => (plan?.resolved.plan && plan.timeline ? [[plan.resolved.plan.name, plan.resolved.plan] as const] : [])),
    ),
  );
  const read = logs.map(({ line }) => readLog(line, athletes));
  const newest =
    read
      .map(({ date }) => date)
      .sort()
      .at(-1) ?? "";
  return read.flatMap((log) => {
    const plan = plans.get(log.plan);
    return plan ? [{ log, plan, ageDays: daysBetween(log.date, newest) }] : [];
  });
}

/** Whether a test is as new as the newest log: what the log says has been taken in, or overtaken. */
function counted({ unknown: { athlete, subject } }: Learnt, date: string, abilities: Abilities): boolean {
  const tests = abilities.tests(athlete, subject);
  const newest =
    [...(tests?.measures.values() ?? []), ...(tests?.timed.values() ?? [])]
      .map(({ on }) => on ?? "")
      .sort()
      .at(-1) ?? "";
  return newest >= date;
}

function rowsOf(
  one: Learnt,
  tried: readonly TriedLog[],
  abilities: Abilities,
  { kept: { world } }: AnsweredNotebook,
): readonly LearntRow[] {
  const {
    unknown: { kind, athlete, subject, hold },
    factor,
    low,
    high,
  } = one;
  const known = hold ? world.holds.get(subject) : world.movements.get(subject);
  const tests = abilities.tests(athlete, subject);
  const name = tests?.name ?? known?.name ?? subject;
  const row = (measure: string, from: number, unit: LearntRow["unit"], digits: number): LearntRow => {
    const scaled = (by: number): number => Number((from * by).toFixed(digits));
    return {
      athlete,
      subject: name,
      measure,
      from,
      to: scaled(factor),
      unit,
      words: `${athlete}'s ${name} ${measure}: ${plain(from, digits)} → ${plain(scaled(factor), digits)}${unit === "" ? "" : ` ${unit}`}, four to one between ${plain(scaled(low), digits)} and ${plain(scaled(high), digits)}. ${reason(one, tried)}`,
    };
  };
  if (kind === "recovery") return [row("recovery", 1, "", 2)];
  if (hold) return [row("hold", abilities.hold(athlete, name).seconds, "s", 0)];
  const timed = [...(tests?.timed ?? [])].map(([seconds, { value }]) =>
    row(`in ${seconds % 60 === 0 ? `${seconds / 60} min` : `${seconds} s`}`, value, "reps", 0),
  );
  return [row("unbroken", abilities.unbroken(athlete, name, null).reps, "reps", 0), ...timed];
}

function reason({ told, because }: Learnt, tried: readonly TriedLog[]): string {
  const log = because && tried[because.log]?.log;
  const sure = `That settles ${percent(told)} of what the test left open`;
  return because && log ? `${sure}, mostly by ${seenIn(because.seen, log)}.` : `${sure}.`;
}

function seenIn(seen: Seen, { plan }: LogSpec): string {
  switch (seen.kind) {
    case "done":
      return `${seen.stage} done at ${clock(seen.atS)} in ${plan}`;
    case "finish":
      return `the finish at ${clock(seen.atS)} in ${plan}`;
    case "reps":
      return `the board at ${clock(seen.atS)} in ${plan}`;
    case "broke":
      return `the miss after ${seen.after} reps in ${plan}`;
    case "dropped":
      return `the hold that was dropped at ${clock(seen.atS)} in ${plan}`;
    case "no-rep":
      return `the no-reps in ${plan}`;
  }
}
