import { describe, expect, it } from "vitest";
import type { Document } from "../../src/1-text/document.js";
import { compile, type Compiled } from "../../src/compile.js";
import { parse, reparse } from "../../src/2-tree/parse.js";
import { difference } from "../../src/1-text/edits.js";
import { kelpStreet } from "../../src/5-findings/examples.js";
import { brokenLines } from "../grammar/broken-lines.js";
import { seeded } from "../fuzz/inputs.js";
import { lighthouse } from "../notebook.js";

function said(compiled: Compiled): string {
  return JSON.stringify(
    [...compiled.documents].map(([path, { blocks }]) => [
      path,
      blocks.map(({ block, answers, findings, plan }) => [block.from, block.firstLine, answers, findings, plan?.timeline]),
    ]),
  );
}

const pieces = [
  "\n",
  "  ",
  "7",
  " each",
  "stage squats",
  "\n    Ines 5",
  "while Bram hold",
  "// x",
  "# y\n",
  "(",
  ")",
  '"',
  "-",
  " rest 5 s",
  "plan X for Breakwater\n",
  "\t",
  ...brokenLines.slice(0, 40),
];

function edited(text: string, random: () => number): string {
  const at = Math.floor(random() * (text.length + 1));
  if (random() < 0.45) return text.slice(0, at) + text.slice(at + Math.floor(random() * 12));
  return text.slice(0, at) + (pieces[Math.floor(random() * pieces.length)] ?? "") + text.slice(at);
}

/** `EDITS=1000` looks longer. */
const edits = Number(process.env.EDITS ?? 25);

describe("an edited notebook", () => {
  it.each([1])("gives what a fresh one gives, over random edits (seed %i)", (seed) => {
    const random = seeded(seed);
    let documents: readonly Document[] = lighthouse;
    let compiled = compile(documents);
    for (let edit = 0; edit < edits; edit += 1) {
      const which = Math.floor(random() * documents.length);
      documents = documents.map((document, at) => (at === which ? { path: document.path, text: edited(document.text, random) } : document));
      compiled = compile(documents, compiled);
      expect(said(compiled)).toBe(said(compile(documents)));
    }
  });

  it.each(["setup 4 s", "handover 9 s", "cap 40 s", "score reps\n  cap 40 s"])("moves a plan to an event that differs by %s", (line) => {
    const event = (name: string, lines: string): string => `event ${name}\n  stage 40 box jump\n${lines}`;
    const text = `${kelpStreet}${event("One", "")}${event("Two", `  ${line}\n`)}plan P for One\n  repeat\n    Ines 5\n    Bram 5\n`;
    const [before, moved] = [text, text.replace("for One", "for Two")].map((each) => [{ path: "a.rota", text: each }]);
    const fresh = said(compile(moved ?? []));
    expect(fresh).not.toBe(said(compile(before ?? [])));
    expect(said(compile(moved ?? [], compile(before ?? [])))).toBe(fresh);
  });

  it("has the tree of a full parse after each of 3000 random edits", () => {
    const random = seeded(11);
    for (const { text } of lighthouse) {
      let parsed = parse(text);
      for (let count = 0; count < 166; count += 1) {
        const next = edited(parsed.text, random);
        const edit = difference(parsed.text, next);
        if (edit) parsed = reparse(parsed, edit, next);
        expect(parsed.tree.toString()).toBe(parse(next).tree.toString());
      }
    }
  });

  it("two notebooks compiled in turns each give what they give alone", () => {
    const [one, other] = [lighthouse.slice(0, 5), lighthouse.slice(5)];
    const alone = [said(compile(one)), said(compile(other))];
    let [a, b] = [compile(one), compile(other)];
    for (let turn = 0; turn < 3; turn += 1) [a, b] = [compile(one, a), compile(other, b)];
    expect([said(a), said(b)]).toEqual(alone);
  });
});

describe("what an answer depends on", () => {
  const using = { path: "a.rota", text: 'use "b.rota"\n' };
  const used = { path: "b.rota", text: "# nothing yet\n" };
  const found = (compiled: Compiled): readonly string[] =>
    [...compiled.documents.values()].flatMap(({ blocks }) => blocks.flatMap(({ findings }) => findings.map(({ rule }) => rule)));

  it("is also which documents there are: one that comes settles what was said of its absence, one that goes brings it back", () => {
    const without = compile([using]);
    expect(found(without)).toEqual(["unknown-name"]);
    const both = compile([using, used], without);
    expect(found(both)).toEqual([]);
    expect(found(compile([using], both))).toEqual(["unknown-name"]);
  });

  it("is not who asked before: what nobody asked for is not made for the next key", () => {
    const before = compile(lighthouse);
    const after = compile(lighthouse, before);
    expect([before.settle(), after.settle()].every((timelines) => timelines > 0)).toBe(true);
    expect(compile(lighthouse, after).settle()).toBe(0);
  });

  it("is handed on over compilations that nobody asked", () => {
    const before = compile(lighthouse);
    const answersOfPlans = ({ documents }: Compiled) =>
      (documents.get("breakwater.rota")?.blocks ?? []).filter(({ plan }) => plan).map(({ answers }) => answers);
    const said = answersOfPlans(before);
    let after = before;
    for (let key = 0; key < 5; key += 1) after = compile(lighthouse, after);
    expect(said.length).toBeGreaterThan(1);
    expect(answersOfPlans(after).every((answers, at) => answers === said[at])).toBe(true);
  });
});

describe("a named edit computes only what it must", () => {
  const before = compile(lighthouse);
  before.settle();
  const withText = (path: string, change: (text: string) => string): Compiled =>
    compile(
      lighthouse.map((document) => (document.path === path ? { path, text: change(document.text) } : document)),
      before,
    );

  it.each([
    ["a comment in a plan", "breakwater.rota", (text: string) => text.replace("while Bram hold", "while Bram hold  // breathe")],
    ["a note", "breakwater.rota", (text: string) => text.replace("> Two move", "> Two of you move")],
    ["a blank line", "breakwater.rota", (text: string) => text.replace("  stage logs", "\n  stage logs")],
    [
      "a comment in the abilities",
      "team.rota",
      (text: string) => text.replace("82      74", "82      74".trim()).replace("104   s", "104   s  // strong"),
    ],
    ["another indent", "breakwater.rota", (text: string) => text.replace(/^ {2}/gm, "    ")],
  ])("%s: no timeline", (_name, path, change) => {
    const after = withText(path, change);
    expect(after.documents.get(path)?.document.parsed.text).not.toBe(before.documents.get(path)?.document.parsed.text);
    expect(after.settle()).toBe(0);
  });

  it("a size: the timeline of its plan", () => {
    expect(withText("breakwater.rota", (text) => text.replace("A 18 each", "A 17 each")).settle()).toBe(1);
  });

  it("an answer that is the same stays the same object", () => {
    const after = withText("breakwater.rota", (text) => text.replace("A 18 each", "A 17 each"));
    const block = (compiled: Compiled) => compiled.documents.get("breakwater.rota")?.blocks[0]?.answers;
    expect(block(after)).toBe(block(before));
  });
});
