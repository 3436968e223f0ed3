import type { AnyRule } from "../5-findings/rule.js";
import type { Range, ReportedFinding } from "./report.js";

const levels = { error: "error", warning: "warning", note: "note" } as const;

/** The findings of a report as a SARIF 2.1.0 log: one run, every rule with its help, each fix as replacements. */
export function sarif(
  documents: readonly { readonly path: string; readonly findings: readonly ReportedFinding[] }[],
  rules: readonly AnyRule[],
) {
  const indexOf = new Map<string, number>(rules.map(({ id }, at) => [id, at]));
  return {
    $schema: "https://json.schemastore.org/sarif-2.1.0.json",
    version: "2.1.0",
    runs: [
      {
        tool: {
          driver: {
            name: "Rotaline",
            rules: rules.map(({ id, title, why, source }) => ({
              id,
              shortDescription: { text: title },
              fullDescription: { text: why },
              help: { text: `${why} Source: ${source}.` },
            })),
          },
        },
        columnKind: "utf16CodeUnits",
        results: documents.flatMap(({ path, findings }) =>
          findings.map((finding) => resultOf(path, finding, indexOf.get(finding.rule) ?? -1)),
        ),
      },
    ],
  };
}

function resultOf(path: string, finding: ReportedFinding, ruleIndex: number) {
  const { rule, severity, message, fixes } = finding;
  const artifactLocation = { uri: `${path.startsWith("/") ? "file://" : ""}${path.split("/").map(encodeURIComponent).join("/")}` };
  return {
    ruleId: rule,
    ruleIndex,
    level: levels[severity],
    message: { text: message },
    locations: [{ physicalLocation: { artifactLocation, region: regionOf(finding) } }],
    ...(fixes.length > 0
      ? {
          fixes: fixes.map(({ title, edits }) => ({
            description: { text: title },
            artifactChanges: [
              {
                artifactLocation,
                replacements: edits.map((edit) => ({ deletedRegion: regionOf(edit), insertedContent: { text: edit.text } })),
              },
            ],
          })),
        }
      : {}),
  };
}

function regionOf({ line, column, endLine, endColumn }: Range) {
  return { startLine: line, startColumn: column, endLine, endColumn };
}
