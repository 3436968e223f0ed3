import { compile, type Compiled } from "../compile.js";
import type { Document } from "../1-text/document.js";
import { spreadOf } from "../4-timeline/spread.js";
import { excerpt, type Paint } from "../7-view/excerpt.js";
import { report, type Report } from "../7-view/report.js";
import { rules } from "../5-findings/registry.js";
import { sarif } from "../7-view/sarif.js";

/** What `check` says of a notebook, and whether it holds an error. */
export interface Checked {
  readonly output: string;
  readonly errors: boolean;
}

export function check(documents: readonly Document[], format: "text" | "json" | "sarif", paint: Paint): Checked {
  const checked = reportOf(compile(documents), format === "json");
  const errors = checked.documents.some(({ findings }) => findings.some(({ severity }) => severity === "error"));
  const output = format === "json" ? `${JSON.stringify(checked)}\n` : format === "sarif" ? `${JSON.stringify(sarif(checked, rules))}\n` : forPeople(documents, checked, paint);
  return { output, errors };
}

/** The report, with the spread of each plan's score where a program will read it. */
export function reportOf(compiled: Compiled, withSpread: boolean): Report {
  const documents = [...compiled.documents].map(([path, { document, blocks }]) => ({ path, text: document.parsed.text, blocks }));
  return report(documents, (plan) => {
    const days = withSpread ? compiled.daysOf(plan) : null;
    return days && spreadOf(days);
  });
}

function forPeople(documents: readonly Document[], { documents: reports, plans }: Report, paint: Paint): string {
  const texts = new Map(documents.map(({ path, text }) => [path, text]));
  const excerpts = reports.flatMap(({ path, findings }) => findings.map((finding) => excerpt(path, texts.get(path) ?? "", finding, paint)));
  const wide = Math.max(0, ...plans.map(({ name, event }) => name.length + event.length));
  const shown = new Map(reports.map(({ path, lines }) => [path, lines]));
  const summaries = plans.map(({ name, event, path, line }) => {
    const answer = shown.get(path)?.find((one) => one.line === line)?.shown ?? "";
    return `  ${paint("strong", name)} for ${event}${" ".repeat(wide - name.length - event.length)}  ${answer}`;
  });
  const all = reports.flatMap(({ findings }) => findings);
  const count = (severity: string): string => {
    const found = all.filter((finding) => finding.severity === severity).length;
    return `${found} ${severity}${found === 1 ? "" : "s"}`;
  };
  const counts = `${reports.length} documents, ${plans.length} plans: ${count("error")}, ${count("warning")}, ${count("note")}`;
  return `${[...excerpts, ...(summaries.length > 0 ? ["Plans", ...summaries, ""] : []), counts].join("\n")}\n`;
}
