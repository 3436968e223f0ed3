import { clock, counted, percent } from "../0-base/quantity.js";
import { type Days, troubledShare } from "../4-timeline/spread.js";
import type { Timeline } from "../4-timeline/timeline.js";
import { excerpt, type Paint } from "./excerpt.js";
import { reportedByBlock, type ReportedFinding, reportedFindings } from "./report.js";
import type { ReportedBlock, ReportedDocument } from "./reported.js";
import { type DrawnDays, spreadWords } from "./spread-words.js";

/** Findings of one rule in one block, as one entry: the first with what it says, the others by their lines. */
interface Entry {
  readonly first: ReportedFinding;
  readonly also: readonly number[];
}

/** What is wrong in one block: a plan, an event, a line of its own. */
interface Group {
  readonly title: string;
  readonly path: string;
  readonly text: string;
  readonly entries: readonly Entry[];
}

const order = ["error", "warning", "note"] as const;

/**
 * What `check` says to people: each plan in a line; then what is wrong, plan by plan, the worst first, what repeats once
 * with its lines; the reason of each rule once. `full`: every finding with its line and its reason.
 */
export function textReport(documents: readonly ReportedDocument[], drawn: DrawnDays, paint: Paint, full: boolean): string {
  const groups = documents.flatMap(groupsOf).sort((a, b) => worstOf(a) - worstOf(b));
  const found = full
    ? documents.flatMap((document) => reportedFindings(document).map((finding) => excerpt(document.path, document.text, finding, paint)))
    : groups.flatMap(({ title, path, text, entries }) => [
        `${paint("strong", title)}  ${paint("quiet", path)}`,
        ...entries.map((entry) => entryText(path, text, entry, paint)),
        "",
      ]);
  const reasons = full
    ? []
    : reasonLines(
        groups.flatMap(({ entries }) => entries),
        paint,
      );
  return `${[...planPart(documents, drawn, paint), ...found, ...(reasons.length > 0 ? ["Why", ...reasons, ""] : []), summary(documents)].join("\n")}\n`;
}

/** At most a screen: each plan in a line, and how much is found. */
export function briefReport(documents: readonly ReportedDocument[], drawn: DrawnDays, paint: Paint): string {
  const lines = planPart(documents, drawn, paint);
  const more = lines.length > screenLines ? [`  … ${counted(lines.length - screenLines, "more line")}`, ""] : [];
  return `${[...lines.slice(0, screenLines), ...more, summary(documents)].join("\n")}\n`;
}

/** Lines of a terminal window of the usual 24 that a brief report may take. */
const screenLines = 16;

function planPart(documents: readonly ReportedDocument[], drawn: DrawnDays, paint: Paint): readonly string[] {
  const plans = planLines(documents, drawn, paint);
  return plans.length > 0 ? ["Plans", ...plans, ""] : [];
}

function summary(documents: readonly ReportedDocument[]): string {
  const findings = documents.flatMap(reportedFindings);
  const plans = documents.reduce((sum, { blocks }) => sum + blocks.filter(({ plan }) => plan?.timeline).length, 0);
  const counts = order.map((severity) => counted(findings.filter((finding) => finding.severity === severity).length, severity)).join(", ");
  return `${counted(documents.length, "document")}, ${counted(plans, "plan")}: ${counts}`;
}

function worstOf({ entries }: Group): number {
  return Math.min(...entries.map(({ first }) => order.indexOf(first.severity)));
}

/** Plans whose days are drawn: of a larger notebook the others stand as they are on paper. */
const mostDrawn = 20;

function planLines(documents: readonly ReportedDocument[], drawn: DrawnDays, paint: Paint): readonly string[] {
  const timed = documents.flatMap(({ blocks }) => blocks.filter(({ plan }) => plan?.timeline));
  const plans = timed.flatMap((block, at) => {
    const { plan, findings } = block;
    const spec = plan?.resolved.plan;
    if (!spec || !plan.timeline) return [];
    const errors = findings.filter(({ severity }) => severity === "error").length;
    const days = at < mostDrawn ? drawn.of(plan) : null;
    const answer = days ? spreadWords(days) : (block.answers.find(({ line }) => line === 0)?.shown ?? "");
    return [
      {
        name: spec.name,
        event: spec.event.name,
        said: [answer, missWords(plan.timeline, days), ...(errors > 0 ? [counted(errors, "error")] : [])].join(" · "),
      },
    ];
  });
  const wide = Math.max(0, ...plans.map(({ name, event }) => name.length + event.length));
  return plans.map(
    ({ name, event, said }) => `  ${paint("strong", name)} for ${event}${" ".repeat(wide - name.length - event.length)}  ${said}`,
  );
}

/** Trouble on fewer days than this is not expected, 0…1. */
const seldom = 0.1;

/** Who misses or drops, how often, and when first: on paper; else on how many days somebody does. */
function missWords({ turns }: Timeline, days: Days | null): string {
  const troubled = turns.filter(({ misses, drops }) => misses.length + drops.length > 0);
  const [first] = troubled;
  if (!first) {
    const share = days ? troubledShare(days) : 0;
    return share >= seldom ? `a miss or a drop on ${percent(share)} of days` : "no miss expected";
  }
  const [what] = [
    ...first.misses.map((one) => ({ ...one, word: "misses" })),
    ...first.drops.map((one) => ({ ...one, word: "drops the hold" })),
  ].sort((a, b) => a.atS - b.atS);
  const who = what ? `${what.athlete} ${what.word} at ${clock(what.atS)}` : "";
  return troubled.length === 1 ? who : `trouble in ${troubled.length} turns, first: ${who}`;
}

function groupsOf(document: ReportedDocument): readonly Group[] {
  const findings = reportedByBlock(document);
  return document.blocks.flatMap((block, at) => {
    const entries = entriesOf(findings[at] ?? []);
    return entries.length === 0 ? [] : [{ title: titleOf(block), path: document.path, text: document.text, entries }];
  });
}

/** A plan by its name and event, any other block by its first line. */
function titleOf({ block, plan }: ReportedBlock): string {
  const spec = plan?.resolved.plan;
  return spec ? `${spec.name} for ${spec.event.name}` : (block.text.split("\n", 1)[0] ?? "").trim().slice(0, longestTitle);
}

const longestTitle = 60;

function entriesOf(findings: readonly ReportedFinding[]): readonly Entry[] {
  const byRule = new Map<string, ReportedFinding[]>();
  for (const finding of findings) {
    const key = `${finding.severity} ${finding.rule} ${finding.rule === "does-not-parse" || finding.rule === "unknown-name" ? finding.message : ""}`;
    byRule.set(key, [...(byRule.get(key) ?? []), finding]);
  }
  return [...byRule.values()]
    .flatMap(([first, ...others]): readonly Entry[] =>
      first ? [{ first, also: [...new Set(others.map(({ line }) => line))].filter((line) => line !== first.line) }] : [],
    )
    .sort((a, b) => order.indexOf(a.first.severity) - order.indexOf(b.first.severity));
}

function entryText(path: string, text: string, { first, also }: Entry, paint: Paint): string {
  const more =
    also.length === 0
      ? ""
      : ` Also on ${also.length === 1 ? "line" : "lines"} ${also.slice(0, 8).join(", ")}${also.length > 8 ? " …" : ""}.`;
  if (first.severity === "error") return excerpt(path, text, { ...first, message: first.message + more, why: "" }, paint);
  const fixes = first.fixes.map(({ title }) => `\n    ${paint("quiet", "fix:")} ${title}`).join("");
  return `${paint(first.severity, first.severity)}: ${first.message}${more}\n    ${paint("quiet", `${path}:${first.line}:${first.column} ${first.rule}`)}${fixes}`;
}

function reasonLines(entries: readonly Entry[], paint: Paint): readonly string[] {
  const why = new Map(entries.map(({ first }) => [first.rule, first.why] as const));
  const wide = Math.max(0, ...[...why.keys()].map((rule) => rule.length));
  return [...why].map(([rule, reason]) => `  ${paint("quiet", rule.padEnd(wide))}  ${reason}`);
}
