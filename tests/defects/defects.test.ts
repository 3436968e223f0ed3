/**
 * What was once found wrong, each with its input. `%team` stands for the ground that most
 * share; a case names sentences that are said and sentences that are not, of answers, findings and what fixes write.
 */
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { format } from "../../src/3-plan/format.js";
import { compile } from "../../src/compile.js";

const ground = `team Pier Nine
  Ada woman
  Eva woman
  Olu man
  Ian man
ability    Ada  Eva  Olu  Ian
  jump   unbroken  20  20  20  20  reps
  jump   cycle  2  2  2  2  s
  swing  unbroken  30  30  30  30  reps
  swing  cycle  2  2  2  2  s
  stone  hold  80  80  80  80  s
`;

const cases = readFileSync(new URL("cases.txt", import.meta.url), "utf8")
  .split(/^=== /m)
  .slice(1)
  .map((text) => {
    const [, title = "", body = "", wanted = ""] = /^(.*)\n([\s\S]*?)==>\n([\s\S]*)$/.exec(text) ?? [];
    return { title, text: body.replace(/^%team\n/m, ground), wanted: wanted.trim().split("\n") };
  });

/** Every answer and finding by line, and what the fixes and the formatter write. */
function saidOf(text: string): string {
  const blocks = compile([{ path: "a.rota", text }]).documents.get("a.rota")?.blocks ?? [];
  const lines = blocks.flatMap(({ block, answers, findings }) => [
    ...answers.map(
      ({ line, shown, inputs }) => `${lineOf(text, block.firstLine + line)} ⇒ ${shown} (${inputs.map(({ origin }) => origin.kind).join()})`,
    ),
    ...findings.map(
      ({ rule, message, fixes }) =>
        `${rule}: ${message} [${fixes.map(({ edits }) => edits.map((edit) => edit.text.replace(/\n\s*/g, " / ")).join()).join(" or ")}]`,
    ),
  ]);
  return [
    ...lines,
    ...format(text)
      .split("\n")
      .map((line) => `formatted: ${line.trim()}`),
  ].join("\n");
}

function lineOf(text: string, at: number): string {
  return text.split("\n")[at]?.trim() ?? "";
}

describe("once found wrong", () => {
  it.each(cases.map(({ title, text, wanted }) => [title, text, wanted] as const))("%s", (_, text, wanted) => {
    const said = saidOf(text);
    for (const line of wanted) {
      const [, verb, sentence = ""] = /^(says|never) +(.*)$/.exec(line) ?? [];
      expect(["says", "never"]).toContain(verb);
      if (verb === "says") expect(said).toContain(sentence);
      else expect(said).not.toContain(sentence);
    }
    expect(said).not.toMatch(/NaN|undefined|Infinity/);
  });
});
