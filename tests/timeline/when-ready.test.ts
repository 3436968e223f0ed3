import { describe, expect, it } from "vitest";
import { format } from "../../src/3-plan/format.js";
import { compileText, findingsOf, timelineOf } from "../notebook.js";

const notebook = (lines: string): string => `team Pier Nine
  Ada  woman
  Olu  man
ability  Ada  Olu
  dip  unbroken  9  12  reps
  dip  cycle  2  2  s
event Test
  score reps
  cap 5 min
  stage dip
plan P for Test
${lines}`;

describe("repeat, each when ready", () => {
  it("is a rest until ready before each of its turns", () => {
    const said = timelineOf(compileText(notebook("  repeat, each when ready\n    Ada 6\n    Olu 8\n")));
    const spelt = timelineOf(compileText(notebook("  repeat\n    rest until ready\n    Ada 6\n    rest until ready\n    Olu 8\n")));
    const times = ({ turns }: typeof said) => turns.map(({ startS, endS, athletes }) => ({ startS, endS, athletes }));
    expect(times(said)).toEqual(times(spelt));
    expect(said.turns.flatMap(({ misses }) => misses)).toEqual([]);
  });

  it("keeps its words when it is put in order, and has one answer on its line", () => {
    expect(format("plan P for E\n  repeat  3 , each   when ready\n    Ada 6\n")).toContain("  repeat 3, each when ready\n");
    const compiled = compileText(notebook("  repeat, each when ready\n    Ada 6\n    Olu 8\n"));
    const [block] = [...compiled.documents.values()].flatMap(({ blocks }) => blocks.filter(({ plan }) => plan));
    expect(block?.answers.filter(({ line }) => line === 1).map(({ about }) => about)).toEqual(["turns"]);
    expect(findingsOf(compiled).filter(({ severity }) => severity === "error")).toEqual([]);
  });
});
