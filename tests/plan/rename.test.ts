/** Renaming a name everywhere, seen on the demo notebook and on the cases where one place names two things. */
import { describe, expect, it } from "vitest";
import { applyEdits } from "../../src/1-text/edits.js";
import type { Document } from "../../src/1-text/document.js";
import { keyOf, type Occurrence, occurrencesIn } from "../../src/3-plan/occurrences.js";
import { rename } from "../../src/3-plan/rename.js";
import { compile } from "../../src/compile.js";
import { findingsOf, lighthouse } from "../notebook.js";

function namesIn(documents: readonly Document[]): ReadonlyMap<string, readonly Occurrence[]> {
  const { documents: compiled, kept } = compile(documents);
  return occurrencesIn({ documents: [...compiled].map(([path, { document }]) => ({ path, blocks: document.blocks })), world: kept.world });
}

function nameAt(documents: readonly Document[], words: string): Occurrence {
  for (const { path, text } of documents) {
    const at = text.indexOf(words);
    const found =
      at < 0
        ? undefined
        : namesIn(documents)
            .get(path)
            ?.find(({ span }) => span.from === at);
    if (found) return found;
  }
  throw new Error(`no name at “${words}”`);
}

function renamed(documents: readonly Document[], words: string, to: string): readonly Document[] | string {
  const done = rename(namesIn(documents), nameAt(documents, words), to);
  return done.ok ? documents.map(({ path, text }) => ({ path, text: applyEdits(text, done.edits.get(path) ?? []) })) : done.reason;
}

const one = (text: string) => [{ path: "test.rota", text }];

describe("a renamed name", () => {
  it("is every declared name of the demo notebook: the findings stay as they were, but for the name in them", () => {
    const before = findingsOf(compile(lighthouse)).map(({ rule, path }) => `${path} ${rule}`);
    const declared = [...namesIn(lighthouse)].flatMap(([, names]) => names.filter(({ declares }) => declares));
    expect(declared.length).toBeGreaterThan(25);
    for (const target of new Map(declared.map((name) => [keyOf(name), name])).values()) {
      const done = rename(namesIn(lighthouse), target, "Zora");
      if (!done.ok) throw new Error(done.reason);
      const documents = lighthouse.map(({ path, text }) => ({ path, text: applyEdits(text, done.edits.get(path) ?? []) }));
      expect([target.kind, target.name, findingsOf(compile(documents)).map(({ rule, path }) => `${path} ${rule}`)]).toEqual([
        target.kind,
        target.name,
        before,
      ]);
      const back = rename(namesIn(documents), { ...target, name: "Zora" }, target.name);
      expect(back.ok && documents.map(({ path, text }) => applyEdits(text, back.edits.get(path) ?? []))).toEqual(
        lighthouse.map(({ text }) => text),
      );
    }
  });

  it("is written in a formula with its blanks as _, and keeps a plural s", () => {
    expect(renamed(one("event Tide\n  cap 9 min\nlet a = Tide.cap\n"), "Tide", "Long Tide")).toEqual(
      one("event Long Tide\n  cap 9 min\nlet a = Long_Tide.cap\n"),
    );
    expect(renamed(one("movement swing\nevent Tide\n  stage s 9 swings\n"), "swing", "snatch")).toEqual(
      one("movement snatch\nevent Tide\n  stage s 9 snatchs\n"),
    );
  });

  it("is a stage and its movement together where the stage is called after it", () => {
    const text = "team T\n  Ada woman\nevent E\n  score reps\n  cap 3 min\n  stage ring dip\nplan P for E\n  stage ring dip\n    Ada 5\n";
    expect(renamed(one(text), "ring dip", "push up")).toEqual(one(text.replaceAll("ring dip", "push up")));
  });

  it("is a stage of its own event and of those like it, not another event's", () => {
    const text =
      "event A\n  stage s 9 x\nevent B like A\n  stage s 5 x\nevent C\n  stage s 5 x\nplan P for B\n  stage s\nplan Q for C\n  stage s\n";
    expect(renamed(one(text), "s 9 x", "t")).toEqual(
      one(
        "event A\n  stage t 9 x\nevent B like A\n  stage t 5 x\nevent C\n  stage s 5 x\nplan P for B\n  stage t\nplan Q for C\n  stage s\n",
      ),
    );
  });

  it("is refused where it is no name, or another's", () => {
    const team = one("team T\n  Ada woman\n  Olu man\n");
    expect(renamed(team, "Ada", "Olu")).toBe("The name “Olu” is taken by another athlete.");
    expect(renamed(team, "Ada", "Ada Lo")).toBe("The name of an athlete is one word.");
    expect(renamed(team, "Ada", "7")).toBe("A name begins with a letter; letters, digits, blanks, ' and - may follow.");
  });
});
