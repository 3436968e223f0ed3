import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { headWords } from "../../grammar/tokens.js";
import { blocksOf } from "../../src/2-tree/blocks.js";
import { parse } from "../../src/2-tree/parse.js";
import type { Line } from "../../src/3-plan/ast.js";
import { format } from "../../src/3-plan/format.js";
import { print } from "../../src/3-plan/print.js";
import { readBlock } from "../../src/3-plan/read.js";
import { compileText, findingsOf, lighthouse, meaning } from "../notebook.js";

function read(text: string): readonly Line[] {
  return blocksOf(text, parse(text).tree).map((block) => readBlock(block).line);
}

const sizes = fc.oneof(
  fc.integer({ min: 1, max: 60 }).map(String),
  fc.constantFrom("7-6-5", "5-4-3 again", "28 % unbroken", "(round(2 * 3.5))"),
);
const turns = fc
  .tuple(
    fc.constantFrom("A", "Ines", "Ines + Bram"),
    sizes,
    fc.constantFrom("", " each", " in sync", " shared"),
    fc.constantFrom("", " while Marta hold", " while Marta + Tariq hold"),
  )
  .map((parts) => parts[0] + " " + parts.slice(1).join(""));
const rests = fc.constantFrom("rest 10 s", "rest 1:30", "rest until ready", "Ines rest until 60 %", "Ines rest 10 s", "A 2 rounds");
const bodies = fc.array(fc.oneof(turns, rests), { minLength: 1, maxLength: 8 });
const plans = fc
  .tuple(fc.constantFrom("Steady", '"at 9"', "Two by two"), bodies, fc.constantFrom("repeat", "repeat 5", "repeat until 6:00"))
  .map(
    ([name, lines, repeat]) =>
      `plan ${name} for Breakwater\n  stage squats\n    ${repeat}\n${lines.map((line) => `      ${line}\n`).join("")}`,
  );

describe("parse → print → parse", () => {
  it.each(lighthouse.map(({ path, text }) => [path, text] as const))("is equal for %s", (_path, text) => {
    const lines = read(text);
    const printed = lines.map(print).join("");
    expect(meaning(read(printed))).toEqual(meaning(lines));
    expect(read(printed).map(print).join("")).toBe(printed);
  });

  it("is equal for generated plans", () => {
    fc.assert(
      fc.property(plans, (text) => {
        const lines = read(text);
        expect(lines).toHaveLength(1);
        const printed = lines.map(print).join("");
        expect(meaning(read(printed))).toEqual(meaning(lines));
      }),
      { seed: 7, numRuns: 300 },
    );
  });
});

describe("the formatter", () => {
  it.each(lighthouse.map(({ path, text }) => [path, text] as const))(
    "keeps what %s says, with its headings, notes and comments, and settles at once",
    (_path, text) => {
      const formatted = format(text);
      expect(meaning(read(formatted))).toEqual(meaning(read(text)));
      expect(format(formatted)).toBe(formatted);
      const prose = (of: string) =>
        of
          .split("\n")
          .filter((line) => /^\s*([#>]|\/\/)/.test(line))
          .map((line) => line.trim());
      expect(prose(formatted)).toEqual(prose(text));
    },
  );

  it("keeps a broken line as typed, comments behind their line, and at most one blank line", () => {
    const text = "team X\n     Ada    woman   // left handed\n     Olu mann\n\n\n\n// alone\n   > a note\nlet x=1+2";
    expect(format(text)).toBe("team X\n  Ada woman  // left handed\n  Olu mann\n\n// alone\n> a note\nlet x = 1 + 2\n");
  });
});

describe("what does not matter", () => {
  const text =
    "# Head\nteam Pier Nine\n  Ada woman\n  Olu man\n\nevent Sprint\n  stage 10 box jump\nplan Simple for Sprint\n  repeat\n    Ada 5\n    Olu 5\n";
  const shown = (of: string) => {
    const compiled = compileText(of);
    return JSON.stringify(
      [...compiled.documents.values()].flatMap(({ blocks }) =>
        blocks.map(({ answers, findings, plan }) => [answers.map((one) => one.shown), findings.map((one) => one.message), plan?.timeline]),
      ),
    );
  };
  it.each([
    ["CRLF line ends", text.replace(/\n/g, "\r\n")],
    ["tabs for indents", text.replace(/ {2}/g, "\t")],
    ["a byte order mark", `\uFEFF${text}`],
    ["a byte order mark before the first block", `\uFEFF${text.slice(7)}`],
    ["a missing last newline", text.trimEnd()],
    ["four spaces an indent", text.replace(/ {2}/g, "    ")],
  ])("%s change nothing", (_name, changed) => {
    expect(shown(changed)).toBe(shown(text));
    expect(findingsOf(compileText(changed)).filter(({ rule }) => rule === "does-not-parse")).toEqual([]);
  });
});

describe("names between quotes", () => {
  it.each(headWords)("“%s” stays a name, whatever it opens otherwise", (word) => {
    const text = `plan P for E\n  "${word}" 10 each\nlog P on 2026-03-20\n  "${word}" done 4:10\n`;
    expect(meaning(read(format(text)))).toEqual(meaning(read(text)));
    expect(format(text)).toContain(`"${word}" 10 each`);
  });

  it.each([
    ["of no letters, in a table's head", 'team T\n  "😀" woman\nability "😀"\n  jump unbroken 20 reps\n'],
    ["beside a bare word that means something elsewhere", "plan P for E\n  pair A  max + at\n  A 5 each\n"],
    ["inside a standard, which is free text", 'event E\n  standard "hips" below the knees, "chest" up\n'],
  ])("%s: formatting changes nothing that is said, and is done once", (_name, text) => {
    const formatted = format(text);
    expect(format(formatted)).toBe(formatted);
    expect(findingsOf(compileText(formatted)).map(({ message }) => message)).toEqual(
      findingsOf(compileText(text)).map(({ message }) => message),
    );
    expect(meaning(read(formatted))).toEqual(meaning(read(text)));
  });
});
