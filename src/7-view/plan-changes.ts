import { percent } from "../0-base/quantity.js";
import { chanceToBeat, type Days, spreadOf } from "../4-timeline/spread.js";
import type { Severity } from "../5-findings/rule.js";
import type { AnsweredNotebook } from "./answered-block.js";
import { finite } from "./report.js";
import { dayScore } from "./spread-words.js";

/** A plan as one of two versions has it. */
export interface PlanVersion {
  readonly event: string;
  readonly kind: "time" | "reps";
  /** s, or reps, of drawn days; null where a day is never done. */
  readonly p10: number | null;
  readonly p50: number | null;
  readonly p90: number | null;
  readonly findings: readonly { readonly rule: string; readonly severity: Severity; readonly message: string }[];
  /** Of all reps, 0…1, by athlete. */
  readonly shares: Readonly<Record<string, number>>;
}

/** What a change of text does to a plan; null on the side that does not have it, or has no timeline of it. */
export interface PlanChange {
  readonly name: string;
  readonly before: PlanVersion | null;
  readonly after: PlanVersion | null;
  /** On how many of the same days the new one is better; null where there is one side only. */
  readonly better: number | null;
}

/** The plans of two versions of a notebook that do not come to the same. */
export function planChanges(before: AnsweredNotebook, after: AnsweredNotebook): readonly PlanChange[] {
  const [old, now] = [versionsOf(before), versionsOf(after)];
  const names = [...new Set([...old.keys(), ...now.keys()])];
  return names
    .map((name): PlanChange => {
      const [one, other] = [old.get(name), now.get(name)];
      const comparable = one && other && one.version.kind === other.version.kind;
      return {
        name,
        before: one?.version ?? null,
        after: other?.version ?? null,
        better: comparable ? chanceToBeat(other.days, one.days) : null,
      };
    })
    .filter((change) => JSON.stringify(change.before) !== JSON.stringify(change.after));
}

function versionsOf({ documents, daysOf }: AnsweredNotebook): ReadonlyMap<string, { readonly version: PlanVersion; readonly days: Days }> {
  const found = [...documents.values()]
    .flatMap(({ blocks }) => blocks)
    .flatMap(({ plan, findings }) => {
      const days = plan && daysOf(plan);
      if (!plan?.timeline || !days) return [];
      const { p10, p50, p90 } = spreadOf(days);
      const version: PlanVersion = {
        event: plan.resolved.line.event.text,
        kind: days.kind,
        p10: finite(p10),
        p50: finite(p50),
        p90: finite(p90),
        findings: findings.map(({ rule, severity, message }) => ({ rule, severity, message })),
        shares: Object.fromEntries(plan.timeline.athletes.map(({ name, share }) => [name, share])),
      };
      return [[plan.resolved.line.name.text, { version, days }] as const];
    });
  return new Map(found);
}

/** Points of percent by which a share has to change to be worth a word. */
const worthAWord = 0.005;

/** The same, line by line, as a reviewer reads it. */
export function changeLines({ name, before, after, better }: PlanChange): readonly string[] {
  if (!before || !after)
    return [
      `${name}: ${after ? `new, ${rangeOf(after)}` : "gone, or without a timeline"}`,
      ...(after ? findingLines([], after.findings) : []),
    ];
  const score =
    rangeOf(before) === rangeOf(after)
      ? `still ${rangeOf(after)}`
      : `${rangeOf(before)} → ${rangeOf(after)}${better === null ? "" : `, better on ${percent(better)} of days`}`;
  const shares = Object.keys({ ...before.shares, ...after.shares }).flatMap((athlete) => {
    const [had, has] = [before.shares[athlete] ?? 0, after.shares[athlete] ?? 0];
    return Math.abs(had - has) >= worthAWord ? [`${athlete} ${percent(had)} → ${percent(has)}`] : [];
  });
  return [
    `${name}: ${score}`,
    ...(shares.length > 0 ? [`  shares: ${shares.join(", ")}`] : []),
    ...findingLines(before.findings, after.findings),
  ];
}

function rangeOf({ kind, p10, p50, p90 }: PlanVersion): string {
  const shown = (value: number | null): string => (value === null ? "not done" : dayScore(kind, value));
  return `${shown(p50)}${kind === "reps" ? " reps" : ""} (${shown(p10)}–${shown(p90)})`;
}

function findingLines(before: PlanVersion["findings"], after: PlanVersion["findings"]): readonly string[] {
  const left = (some: PlanVersion["findings"], others: PlanVersion["findings"]) =>
    some.filter(({ rule, message }) => !others.some((other) => other.rule === rule && other.message === message));
  return [
    ...left(after, before).map(({ severity, message }) => `  new ${severity}: ${message}`),
    ...left(before, after).map(({ message }) => `  settled: ${message}`),
  ];
}
