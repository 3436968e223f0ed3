import type { ReportedFinding } from "./report.js";

/** Marks a stretch of a terminal line; the plain one gives the words back. */
export type Paint = (style: "error" | "warning" | "note" | "quiet" | "strong", words: string) => string;

export const plainPaint: Paint = (_, words) => words;

/** A finding for people: what is wrong first, then the line with carets under the place, then why and what to write. */
export function excerpt(path: string, text: string, finding: ReportedFinding, paint: Paint): string {
  const { line, column, endLine, endColumn, severity, message, rule, why, fixes } = finding;
  const source = (text.split("\n")[line - 1] ?? "").replace(/\r$/, "");
  const until = endLine === line ? endColumn : source.length + 1;
  const number = String(line);
  const margin = " ".repeat(number.length);
  const before = source.slice(0, column - 1).replace(/[^\t]/g, " ");
  const rows = [
    `${paint(severity, severity)}: ${paint("strong", message)}`,
    paint("quiet", `${margin} ╷ ${path}:${line}:${column} ${rule}`),
    `${paint("quiet", `${number} │`)} ${source}`,
    `${paint("quiet", `${margin} ╵`)} ${before}${paint(severity, "^".repeat(Math.max(1, until - column)))}`,
    `  ${paint("quiet", why)}`,
    ...fixes.map(({ title }) => `  ${paint("quiet", "fix:")} ${title}`),
  ];
  return `${rows.join("\n")}\n`;
}
