import { compile, drawnIn } from "../compile.js";
import type { Document } from "../1-text/document.js";
import type { Paint } from "../7-view/excerpt.js";
import { report, reportedFindings } from "../7-view/report.js";
import type { ReportedDocument } from "../7-view/reported.js";
import type { DrawnDays } from "../7-view/spread-words.js";
import { rules } from "../5-findings/registry.js";
import { sarif } from "../7-view/sarif.js";
import { briefReport, textReport } from "../7-view/text-report.js";

/** What `check` says of a notebook, and whether it holds an error. */
export interface Checked {
  readonly output: string;
  readonly errors: boolean;
}

export type CheckFormat = "text" | "full" | "brief" | "json" | "sarif";

export function check(documents: readonly Document[], format: CheckFormat, paint: Paint): Checked {
  const compiled = compile(documents);
  const reported = [...compiled.documents].map(([path, { document, blocks }]): ReportedDocument => ({
    path,
    text: document.parsed.text,
    blocks,
  }));
  const errors = reported.some(({ blocks }) => blocks.some(({ findings }) => findings.some(({ severity }) => severity === "error")));
  return { output: outputs[format](reported, drawnIn(compiled), paint), errors };
}

type Output = (documents: readonly ReportedDocument[], drawn: DrawnDays, paint: Paint) => string;

const outputs: Readonly<Record<CheckFormat, Output>> = {
  text: (documents, drawn, paint) => textReport(documents, drawn, paint, false),
  full: (documents, drawn, paint) => textReport(documents, drawn, paint, true),
  brief: briefReport,
  json: (documents, drawn) => `${JSON.stringify(report(documents, drawn))}\n`,
  sarif: (documents) =>
    `${JSON.stringify(
      sarif(
        documents.map((document) => ({ path: document.path, findings: reportedFindings(document) })),
        rules,
      ),
    )}\n`,
};
