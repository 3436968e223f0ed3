import { clock, counted } from "../0-base/quantity.js";
import type { Timeline } from "../4-timeline/timeline.js";
import { excerpt, type Paint } from "./excerpt.js";
import { reportedByBlock, reportedFindings, type ReportedDocument, type ReportedFinding } from "./report.js";
import { type DrawnDays, spreadWords } from "./spread-words.js";

/** Findings of one rule in one block, as one entry: the first with what it says, the others by their lines. */
interface Entry {
  readonly path: string;
  readonly text: string;
  readonly first: ReportedFinding;
  readonly also: readonly number[];
}

const order = ["error", "warning", "note"] as const;

/**
 * What `check` says to people: each plan in a line; then what is wrong, errors first, what repeats once with its lines;
 * the reason of each rule once. `full`: every finding with its line and its reason.
 */
export function textReport(documents: readonly ReportedDocument[], drawn: DrawnDays, paint: Paint, full: boolean): string {
  const all = documents.map((document) => ({ ...document, findings: reportedFindings(document) }));
  const entries = documents.flatMap(entriesOf).sort((a, b) => order.indexOf(a.first.severity) - order.indexOf(b.first.severity));
  const plans = planLines(documents, drawn, paint);
  const found = full
    ? all.flatMap(({ path, text, findings }) => findings.map((finding) => excerpt(path, text, finding, paint)))
    : entries.map((entry) => entryText(entry, paint));
  const reasons = full ? [] : reasonLines(entries, paint);
  const counts = order.map((severity) => counted(all.reduce((sum, { findings }) => sum + findings.filter((finding) => finding.severity === severity).length, 0), severity)).join(", ");
  const summary = `${counted(documents.length, "document")}, ${counted(plans.length, "plan")}: ${counts}`;
  const parts = [plans.length > 0 ? ["Plans", ...plans, ""] : [], found, reasons.length > 0 ? ["Why", ...reasons, ""] : [], [summary]];
  return `${parts.flat().join("\n")}\n`;
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
    return [{ name: spec.name, event: spec.event.name, said: [answer, missWords(plan.timeline), ...(errors > 0 ? [counted(errors, "error")] : [])].join(" · ") }];
  });
  const wide = Math.max(0, ...plans.map(({ name, event }) => name.length + event.length));
  return plans.map(({ name, event, said }) => `  ${paint("strong", name)} for ${event}${" ".repeat(wide - name.length - event.length)}  ${said}`);
}

/** Who misses or drops, how often, and when first: on the day that is expected. */
function missWords({ turns }: Timeline): string {
  const troubled = turns.filter(({ misses, drops }) => misses.length + drops.length > 0);
  const [first] = troubled;
  if (!first) return "no miss expected";
  const [what] = [...first.misses.map((one) => ({ ...one, word: "misses" })), ...first.drops.map((one) => ({ ...one, word: "drops the hold" }))].sort((a, b) => a.atS - b.atS);
  const who = what ? `${what.athlete} ${what.word} at ${clock(what.atS)}` : "";
  return troubled.length === 1 ? who : `trouble in ${troubled.length} turns, first: ${who}`;
}

function entriesOf(document: ReportedDocument): readonly Entry[] {
  return reportedByBlock(document).flatMap((findings) => {
    const byRule = new Map<string, ReportedFinding[]>();
    for (const finding of findings) {
      const key = `${finding.severity} ${finding.rule} ${finding.rule === "does-not-parse" || finding.rule === "unknown-name" ? finding.message : ""}`;
      byRule.set(key, [...(byRule.get(key) ?? []), finding]);
    }
    return [...byRule.values()].flatMap(([first, ...others]): readonly Entry[] =>
      first ? [{ path: document.path, text: document.text, first, also: [...new Set(others.map(({ line }) => line))].filter((line) => line !== first.line) }] : []);
  });
}

function entryText({ path, text, first, also }: Entry, paint: Paint): string {
  const more = also.length === 0 ? "" : ` Also on ${also.length === 1 ? "line" : "lines"} ${also.slice(0, 8).join(", ")}${also.length > 8 ? " …" : ""}.`;
  if (first.severity === "error") return `${excerpt(path, text, { ...first, message: first.message + more, why: "" }, paint)}`;
  const fixes = first.fixes.map(({ title }) => `\n    ${paint("quiet", "fix:")} ${title}`).join("");
  return `${paint(first.severity, first.severity)}: ${first.message}${more}\n    ${paint("quiet", `${path}:${first.line}:${first.column} ${first.rule}`)}${fixes}`;
}

function reasonLines(entries: readonly Entry[], paint: Paint): readonly string[] {
  const why = new Map(entries.map(({ first }) => [first.rule, first.why] as const));
  const wide = Math.max(0, ...[...why.keys()].map((rule) => rule.length));
  return [...why].map(([rule, reason]) => `  ${paint("quiet", rule.padEnd(wide))}  ${reason}`);
}
