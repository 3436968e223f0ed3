import { compile, type Compiled } from "../compile.js";
import type { Document } from "../1-text/document.js";
import type { PlanResult } from "../4-timeline/evaluate.js";
import { type Spread, spreadOf } from "../4-timeline/spread.js";
import type { Paint } from "../7-view/excerpt.js";
import { documentReport, report, type ReportedDocument } from "../7-view/report.js";
import { rules } from "../5-findings/registry.js";
import { sarif } from "../7-view/sarif.js";
import { textReport } from "../7-view/text-report.js";

/** What `check` says of a notebook, and whether it holds an error. */
export interface Checked {
  readonly output: string;
  readonly errors: boolean;
}

export type CheckFormat = "text" | "full" | "json" | "sarif";

export function check(documents: readonly Document[], format: CheckFormat, paint: Paint): Checked {
  const compiled = compile(documents);
  const reported = [...compiled.documents].map(([path, { document, blocks }]): ReportedDocument => ({ path, text: document.parsed.text, blocks }));
  const errors = reported.some(({ blocks }) => blocks.some(({ findings }) => findings.some(({ severity }) => severity === "error")));
  return { output: outputs[format](reported, compiled, paint), errors };
}

type Output = (documents: readonly ReportedDocument[], compiled: Compiled, paint: Paint) => string;

const outputs: Readonly<Record<CheckFormat, Output>> = {
  text: (documents, _, paint) => textReport(documents, paint, false),
  full: (documents, _, paint) => textReport(documents, paint, true),
  json: (documents, compiled) => `${JSON.stringify(report(documents, (plan) => spreadIn(compiled, plan)))}\n`,
  sarif: (documents) => `${JSON.stringify(sarif(documents.map(documentReport), rules))}\n`,
};

/** The spread of a plan's score, which only a program reads. */
function spreadIn(compiled: Compiled, plan: PlanResult): Spread | null {
  const days = compiled.daysOf(plan);
  return days && spreadOf(days);
}
