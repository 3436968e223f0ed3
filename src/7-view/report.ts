import { isoAt } from "../0-base/zoned.js";
import { type Span, shift } from "../0-base/span.js";
import { lineAt, lineStarts, position } from "../1-text/document.js";
import type { AthleteTotals } from "../4-timeline/timeline.js";
import type { WeekRun } from "../4-timeline/week.js";
import { spreadOf } from "../4-timeline/spread.js";
import type { Finding } from "../5-findings/judge.js";
import type { Answer } from "./answer.js";
import type { ReportedBlock, ReportedDocument } from "./reported.js";
import { answersWithDays, type DrawnDays } from "./spread-words.js";

/** A stretch of a document; lines and columns from 1, columns in UTF-16 units. */
export interface Range {
  readonly line: number;
  readonly column: number;
  readonly endLine: number;
  readonly endColumn: number;
}

export interface ReportedFinding extends Range {
  readonly rule: string;
  readonly severity: Finding["severity"];
  readonly message: string;
  readonly why: string;
  readonly fixes: readonly { readonly title: string; readonly edits: readonly (Range & { readonly text: string })[] }[];
}

export interface DocumentReport {
  readonly path: string;
  readonly findings: readonly ReportedFinding[];
  readonly lines: readonly { readonly line: number; readonly shown: string; readonly values: Answer["values"] }[];
}

export interface PlanReport {
  readonly name: string;
  readonly event: string;
  readonly path: string;
  readonly line: number;
  /** p10, p50, p90 over seeded draws, a day past the cap at the cap; null where they were not asked for, or never reached without a cap. */
  readonly score: {
    readonly kind: "time" | "reps";
    readonly value: number;
    readonly unit: "s" | "reps";
    readonly finished: boolean;
    readonly p10: number | null;
    readonly p50: number | null;
    readonly p90: number | null;
  };
  readonly stages: readonly { readonly name: string; readonly start: number; readonly end: number; readonly reps: number }[];
  readonly athletes: readonly AthleteTotals[];
  readonly segments: readonly {
    readonly athlete: string;
    readonly activity: string;
    readonly start: number;
    readonly end: number;
    readonly line: number | null;
    readonly movement: string | null;
    readonly reps: number;
  }[];
}

export interface WeekReport {
  readonly name: string;
  readonly sessions: readonly {
    readonly event: string;
    readonly plan: string | null;
    readonly start: string | null;
    readonly line: number;
    readonly readiness: Readonly<Record<string, number>>;
    readonly score: number | null;
  }[];
}

/** The object that `check --format json` prints; stable, its shape changes only with its version. */
export interface Report {
  readonly version: 1;
  readonly documents: readonly DocumentReport[];
  readonly plans: readonly PlanReport[];
  readonly weeks: readonly WeekReport[];
}

export function report(documents: readonly ReportedDocument[], drawn: DrawnDays): Report {
  return {
    version: 1,
    documents: documents.map((document) => documentReport(document, drawn)),
    plans: documents.flatMap(({ path, text, blocks }) => blocks.flatMap((block) => planReport(path, lineStarts(text), block, drawn))),
    weeks: documents.flatMap(({ blocks }) => blocks.flatMap((block) => (block.week ? [weekReport(block.week, block)] : []))),
  };
}

/** The findings of each block of a document. */
export function reportedByBlock({ text, blocks }: ReportedDocument): readonly (readonly ReportedFinding[])[] {
  const starts = lineStarts(text);
  return blocks.map(({ block, findings }) => findings.map((finding) => reportedFinding(finding, block.from, starts)));
}

export function reportedFindings(document: ReportedDocument): readonly ReportedFinding[] {
  return reportedByBlock(document).flat();
}

function documentReport(document: ReportedDocument, drawn: DrawnDays): DocumentReport {
  const { path, blocks } = document;
  return {
    path,
    findings: reportedFindings(document),
    lines: blocks.flatMap((one) =>
      answersWithDays(one, drawn)
        .toSorted((a, b) => a.line - b.line)
        .map(({ line, shown, values }) => ({ line: one.block.firstLine + line + 1, shown, values })),
    ),
  };
}

function reportedFinding({ rule, severity, span, message, why, fixes }: Finding, from: number, starts: readonly number[]): ReportedFinding {
  const range = (inBlock: Span): Range => rangeOf(shift(inBlock, from), starts);
  return {
    rule,
    severity,
    ...range(span),
    message,
    why,
    fixes: fixes.map(({ title, edits }) => ({ title, edits: edits.map((edit) => ({ ...range(edit.span), text: edit.text })) })),
  };
}

function rangeOf({ from, to }: Span, starts: readonly number[]): Range {
  const start = position(starts, from);
  const end = position(starts, to);
  return { line: start.line, column: start.column, endLine: end.line, endColumn: end.column };
}

function planReport(
  path: string,
  starts: readonly number[],
  { block, plan: result }: ReportedBlock,
  drawn: DrawnDays,
): readonly PlanReport[] {
  const plan = result?.resolved.plan;
  const timeline = result?.timeline;
  if (!plan || !timeline) return [];
  const lineOf = (step: number): number => position(starts, block.from + (plan.nodes[step]?.span.from ?? 0)).line;
  const { score } = timeline;
  const days = drawn.of(result);
  const spread = days && spreadOf(days);
  // A day that is cut by the cap scores as the plan itself does then: at the cap.
  const onDay = (value: number | undefined): number | null =>
    finite(Math.min(value ?? Number.NaN, score.kind === "time" ? (timeline.capS ?? Number.POSITIVE_INFINITY) : Number.POSITIVE_INFINITY));
  return [
    {
      name: plan.name,
      event: plan.event.name,
      path,
      line: lineOf(0),
      score: {
        kind: score.kind,
        value: score.value,
        unit: score.kind === "time" ? "s" : "reps",
        finished: score.finished,
        p10: onDay(spread?.p10),
        p50: onDay(spread?.p50),
        p90: onDay(spread?.p90),
      },
      stages: timeline.stages.map(({ name, startS, endS, reps }) => ({ name, start: startS, end: endS, reps })),
      athletes: timeline.athletes,
      segments: timeline.segments.map(({ athlete, activity, startS, endS, step, subject, reps }) => ({
        athlete,
        activity,
        start: startS,
        end: endS,
        line: step === null ? null : lineOf(step),
        movement: subject,
        reps,
      })),
    },
  ];
}

/** A number as JSON can have it: null where there is none, or it has no end. */
export function finite(value: number | undefined): number | null {
  return value !== undefined && Number.isFinite(value) ? value : null;
}

function weekReport({ spec, sessions }: WeekRun, { block, answers }: ReportedBlock): WeekReport {
  const starts = lineStarts(block.text);
  return {
    name: spec.name,
    sessions: sessions.map(({ session, readiness }) => {
      const line = lineAt(starts, session.span.from);
      return {
        event: session.event,
        plan: session.plan,
        start: session.date !== null && session.time !== null ? isoAt(session.date, session.time, spec.zone) : null,
        line: block.firstLine + line + 1,
        readiness: session.start ? Object.fromEntries(readiness) : {},
        score: finite(answers.find((answer) => answer.line === line)?.values.score),
      };
    }),
  };
}
