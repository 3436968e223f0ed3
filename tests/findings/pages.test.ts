/** Pages made from the rules: the reference, and every message as it reads. `npx vitest run --update` renews both. */
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { rules } from "../../src/5-findings/registry.js";
import { rulePage } from "../../src/7-view/rule-page.js";
import { lineAt, lineStarts } from "../../src/1-text/document.js";
import { brokenLines } from "../grammar/broken-lines.js";
import { compileText, findingsOf, root } from "../notebook.js";

describe("pages made from the rules", () => {
  it("the rule reference is fresh", async () => {
    await expect(rulePage(rules)).toMatchFileSnapshot(join(root, "grammar/rules.md"));
  });

  it("the catalogue has every message, as rendered", async () => {
    const byRule = rules.map(({ id, title, bad }) => {
      const found = findingsOf(compileText(bad.replace(/[«»]/g, ""))).filter(({ rule }) => rule === id);
      return `## ${id}: ${title}\n\n${found.map((one) => `- **${one.severity}** at “${one.marked}”: ${one.message}\n  *${one.why}*${one.fixes.map((fix) => `\n  fix: ${fix.title}`).join("")}\n`).join("")}`;
    });
    const broken = brokenLines
      .filter((line) => !/^\s*(#|>|\/\/)/.test(line))
      .flatMap((line) => {
        const text = `${line}\n`;
        return findingsOf(compileText(text))
          .filter(({ rule }) => rule === "does-not-parse")
          .map(({ message, at }) => `- \`${line.replace(/`/g, "´")}\` (line ${lineAt(lineStarts(text), at) + 1}): ${message}\n`);
      });
    const page = `# Every message\n\nMade by the tests from each rule's bad example, and from the broken lines of the grammar tests.\n\n${byRule.join("\n")}\n## Broken lines\n\n${broken.join("")}`;
    await expect(page).toMatchFileSnapshot(join(root, "tests/errors/messages.md"));
    expect(page).not.toMatch(/undefined|NaN|\[object/);
  });
});
