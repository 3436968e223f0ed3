/** Weeks as text: each line with its answer, then what is found. Renew with --update and read the difference. */
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { compile } from "../../src/compile.js";
import { answersOf, findingsOf, lighthouse } from "../notebook.js";

const cases = readFileSync(new URL("cases.txt", import.meta.url), "utf8")
  .split(/^=== /m)
  .slice(1);
const ground = lighthouse.filter(({ path }) => path !== "week.rota" && path !== "one-file.rota");

function answered(text: string): string {
  const [title = "", ...lines] = text.trimEnd().split("\n");
  const week = ["week Trial", ...lines];
  const compiled = compile([...ground, { path: "trial.rota", text: `${week.join("\n")}\n` }]);
  const answers = answersOf(compiled, "trial.rota");
  const width = Math.max(...week.map((line) => line.length));
  const rows = week.map((line, at) => `${line.padEnd(width)}  ${answers.get(at + 1) ?? ""}`.trimEnd());
  const found = findingsOf(compiled)
    .filter(({ path }) => path === "trial.rota")
    .map(({ severity, message, fixes }) => `${severity}: ${message}${fixes.map(({ title: fix }) => ` [${fix}]`).join("")}`);
  return `## ${title}\n\n\`\`\`\n${rows.join("\n")}\n\`\`\`\n\n${found.map((line) => `- ${line}\n`).join("")}`;
}

describe("weeks", () => {
  it("say what they say", async () => {
    await expect(cases.map(answered).join("\n")).toMatchFileSnapshot("cases.answers.md");
  });
});
