import { compile, type Compiled } from "../compile.js";
import type { Document } from "../1-text/document.js";
import type { PlanResult } from "../4-timeline/evaluate.js";
import { type Spread, spreadOf } from "../4-timeline/spread.js";
import { excerpt, type Paint } from "../7-view/excerpt.js";
import { documentReport, report, type ReportedDocument } from "../7-view/report.js";
import { rules } from "../5-findings/registry.js";
import { sarif } from "../7-view/sarif.js";

/** What `check` says of a notebook, and whether it holds an error. */
export interface Checked {
  readonly output: string;
  readonly errors: boolean;
}

export function check(documents: readonly Document[], format: "text" | "json" | "sarif", paint: Paint): Checked {
  const compiled = compile(documents);
  const reported = [...compiled.documents].map(([path, { document, blocks }]): ReportedDocument => ({ path, text: document.parsed.text, blocks }));
  const errors = reported.some(({ blocks }) => blocks.some(({ findings }) => findings.some(({ severity }) => severity === "error")));
  return { output: outputs[format](reported, compiled, paint), errors };
}

type Output = (documents: readonly ReportedDocument[], compiled: Compiled, paint: Paint) => string;

const outputs: Readonly<Record<"text" | "json" | "sarif", Output>> = {
  text: (documents, _, paint) => forPeople(documents, paint),
  json: (documents, compiled) => `${JSON.stringify(report(documents, (plan) => spreadIn(compiled, plan)))}\n`,
  sarif: (documents) => `${JSON.stringify(sarif(documents.map(documentReport), rules))}\n`,
};

/** The spread of a plan's score, which only a program reads. */
function spreadIn(compiled: Compiled, plan: PlanResult): Spread | null {
  const days = compiled.daysOf(plan);
  return days && spreadOf(days);
}

function forPeople(documents: readonly ReportedDocument[], paint: Paint): string {
  const reports = documents.map(documentReport);
  const excerpts = reports.flatMap(({ path, findings }, at) => findings.map((finding) => excerpt(path, documents[at]?.text ?? "", finding, paint)));
  const plans = documents.flatMap(({ blocks }) => blocks.flatMap(({ plan, answers }) => (plan?.resolved.plan && plan.timeline ? [{ plan: plan.resolved.plan, answer: answers.find(({ line }) => line === 0)?.shown ?? "" }] : [])));
  const wide = Math.max(0, ...plans.map(({ plan }) => plan.name.length + plan.event.name.length));
  const summaries = plans.map(({ plan: { name, event }, answer }) => `  ${paint("strong", name)} for ${event.name}${" ".repeat(wide - name.length - event.name.length)}  ${answer}`);
  const all = reports.flatMap(({ findings }) => findings);
  const count = (severity: string): string => {
    const found = all.filter((finding) => finding.severity === severity).length;
    return `${found} ${severity}${found === 1 ? "" : "s"}`;
  };
  const counts = `${reports.length} documents, ${plans.length} plans: ${count("error")}, ${count("warning")}, ${count("note")}`;
  return `${[...excerpts, ...(summaries.length > 0 ? ["Plans", ...summaries, ""] : []), counts].join("\n")}\n`;
}
