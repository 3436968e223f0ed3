import type { ReportedFinding } from "./report.js";

/** Marks a stretch of a terminal line; the plain one gives the words back. */
export type Paint = (style: "error" | "warning" | "note" | "quiet" | "strong", words: string) => string;

/** Columns of a line that are shown. */
const widest = 160;

export const plainPaint: Paint = (_, words) => words;

/** A finding for people: what is wrong first, then the line with carets under the place, then why and what to write. */
export function excerpt(path: string, text: string, finding: ReportedFinding, paint: Paint): string {
  const { line, column, endLine, endColumn, severity, message, rule, why, fixes } = finding;
  const whole = (text.split("\n")[line - 1] ?? "").replace(/\r$/, "").replace(/^\ufeff/, "");
  // Of a very long line, the stretch around the place.
  const from = whole.length <= widest ? 0 : Math.max(0, Math.min(column - 1 - widest / 4, whole.length - widest));
  const source = whole.slice(from, from + widest);
  const until = Math.min((endLine === line ? endColumn : whole.length + 1) - from, source.length + 1);
  const number = String(line);
  const margin = " ".repeat(number.length);
  const before = source.slice(0, column - 1 - from).replace(/[^\t]/g, " ");
  const rows = [
    `${paint(severity, severity)}: ${paint("strong", message)}`,
    paint("quiet", `${margin} ╷ ${path}:${line}:${column} ${rule}`),
    `${paint("quiet", `${number} │`)} ${source}`,
    `${paint("quiet", `${margin} ╵`)} ${before}${paint(severity, "^".repeat(Math.max(1, until - (column - from))))}`,
    ...(why === "" ? [] : [`  ${paint("quiet", why)}`]),
    ...fixes.map(({ title }) => `  ${paint("quiet", "fix:")} ${title}`),
  ];
  return `${rows.join("\n")}\n`;
}
