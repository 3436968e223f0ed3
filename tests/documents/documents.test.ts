/** Whole documents of many shapes; their findings and scores stand beside them as text, so that a change of a rule is a diff. */
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { lineStarts, position } from "../../src/1-text/document.js";
import { compileText, findingsOf, readDocuments, root } from "../notebook.js";

const documents = readDocuments("tests/documents");

describe("documents", () => {
  it("are at least thirty", () => {
    expect(documents.length).toBeGreaterThanOrEqual(30);
  });

  it.each(documents.map(({ path, text }) => [path, text] as const))("%s", async (path, text) => {
    const compiled = compileText(text);
    const starts = lineStarts(text);
    const rows = findingsOf(compiled).map(({ at, severity, rule, message, marked, fixes }) => {
      const { line, column } = position(starts, at);
      return `${line}:${column} ${severity} ${rule} “${marked}”\n    ${message}\n${fixes.map(({ title }) => `    fix: ${title}\n`).join("")}`;
    });
    const scores = [...compiled.documents.values()].flatMap(({ blocks }) => blocks.flatMap(({ plan }) => (plan?.timeline ? [plan] : [])));
    const plans = scores.map(
      ({ resolved, timeline }) =>
        `${resolved.line.name.text}: ${timeline?.score.kind} ${timeline?.score.value.toFixed(1)} ${timeline?.score.finished ? "" : "not "}finished\n`,
    );
    const page = `${plans.join("")}\n${rows.join("") || "nothing found\n"}`;
    await expect(page).toMatchFileSnapshot(join(root, "tests/documents", path.replace(".rota", ".findings.txt")));
    expect(page).not.toMatch(/NaN|undefined|\[object|Infinity/);
  });
});
