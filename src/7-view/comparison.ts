import { clock, percent } from "../0-base/quantity.js";
import type { Kept, PlanResult } from "../4-timeline/kept.js";
import { chanceToBeat, type Days, drawsToCompare, troubledShare, runDays, type Spread, spreadOf } from "../4-timeline/spread.js";
import type { Timeline } from "../4-timeline/timeline.js";
import { scoreWords } from "./block-answers.js";
import type { AthleteTotals } from "../4-timeline/timeline.js";
import type { ReportedBlock } from "./reported.js";
import { dayScore } from "./spread-words.js";

/** A plan that can be compared: it has a timeline, and days drawn. */
export interface Contender {
  readonly result: PlanResult;
  readonly timeline: Timeline;
  readonly days: Days;
  readonly findings: number;
}

export interface PlanComparison {
  readonly plans: readonly {
    readonly name: string;
    readonly score: string;
    readonly spread: Spread;
    readonly kind: "time" | "reps";
    /** Of days, on how many somebody misses or drops a hold. */
    readonly troubled: number;
    readonly findings: number;
    readonly stages: readonly { readonly name: string; readonly seconds: number; readonly reps: number }[];
    readonly athletes: readonly Omit<AthleteTotals, "share">[];
  }[];
  /** `beats[a][b]`: the chance that plan a beats plan b, day by day. */
  readonly beats: readonly (readonly number[])[];
}

/** A block's plan made ready to be compared; null where it has no timeline. */
export function contenderFor(
  { plan: result, findings }: Pick<ReportedBlock, "plan" | "findings">,
  { abilities, world }: Kept,
): Contender | null {
  const plan = result?.resolved.plan;
  if (!plan || !result.timeline) return null;
  return {
    result,
    timeline: result.timeline,
    findings: findings.length,
    days: runDays(plan, abilities, world.constants, { to: drawsToCompare }),
  };
}

/** Plans side by side, on the same days. */
export function compared(contenders: readonly Contender[]): PlanComparison {
  return {
    plans: contenders.map(({ result, timeline, days, findings }) => ({
      name: result.resolved.line.name.text,
      score: scoreWords(timeline.score),
      spread: spreadOf(days),
      kind: days.kind,
      troubled: troubledShare(days),
      findings,
      stages: timeline.stages.map(({ name, startS, endS, reps }) => ({ name, seconds: endS - startS, reps })),
      athletes: timeline.athletes.map(({ name, reps, work, hold, rest }) => ({ name, reps, work, hold, rest })),
    })),
    beats: contenders.map((one) => contenders.map((other) => (one === other ? 0.5 : chanceToBeat(one.days, other.days)))),
  };
}

/** A comparison as a table: a label, then a cell a plan; what differs by stage and athlete below. The first row is its head. */
export function rowsOf({ plans, beats }: PlanComparison): readonly (readonly [string, readonly string[]])[] {
  const stages = [...new Set(plans.flatMap((plan) => plan.stages.map(({ name }) => name)))];
  const athletes = [...new Set(plans.flatMap((plan) => plan.athletes.map(({ name }) => name)))];
  const cells = (of: (plan: PlanComparison["plans"][number]) => string): readonly string[] => plans.map(of);
  return [
    ["", cells(({ name }) => name)],
    ["on paper", cells((plan) => plan.score)],
    ["one day in ten, from", cells(({ kind, spread }) => dayScore(kind, spread.p10))],
    ["the middle day", cells(({ kind, spread }) => dayScore(kind, spread.p50))],
    ["one day in ten, past", cells(({ kind, spread }) => dayScore(kind, spread.p90))],
    ["finishes inside the cap", cells(({ spread }) => percent(spread.finishes))],
    ["days with a miss or drop", cells(({ troubled }) => percent(troubled))],
    ["findings", cells(({ findings }) => String(findings))],
    ...plans.map((other, at): readonly [string, readonly string[]] => [
      `beats ${other.name}`,
      beats.map((row, own) => (own === at ? "–" : percent(row[at] ?? 0))),
    ]),
    ...stages.map((name): readonly [string, readonly string[]] => [
      `${name}: time, reps`,
      cells(({ stages: runs }) => stageWords(runs.find((run) => run.name === name))),
    ]),
    ...athletes.map((name): readonly [string, readonly string[]] => [
      `${name}: reps, held, rested`,
      cells(({ athletes: all }) => athleteWords(all.find((one) => one.name === name))),
    ]),
  ];
}

/** The table as lines of text. */
export function drawComparison(comparison: PlanComparison): string {
  const rows = rowsOf(comparison);
  const label = Math.max(...rows.map(([text]) => text.length));
  const widths = comparison.plans.map((_, at) => Math.max(...rows.map(([, texts]) => texts[at]?.length ?? 0)));
  return (
    rows
      .map(([text, texts]) => `${text.padEnd(label)}  ${texts.map((cell, at) => cell.padStart(widths[at] ?? 0)).join("  ")}`.trimEnd())
      .join("\n") + "\n"
  );
}

function stageWords(run: { readonly seconds: number; readonly reps: number } | undefined): string {
  return run ? `${clock(run.seconds)}, ${run.reps}` : "–";
}

function athleteWords(
  one: { readonly reps: number; readonly work: number; readonly hold: number; readonly rest: number } | undefined,
): string {
  if (!one) return "–";
  return `${one.reps}, ${clock(one.hold)}, ${clock(one.rest)}`;
}
