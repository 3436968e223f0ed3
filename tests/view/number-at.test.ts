import { describe, expect, it } from "vitest";
import { numberAt } from "../../src/7-view/number-at.js";

describe("the number at a column", () => {
  it.each([
    ["    A 7 each    while Marta hold", 6, 7, ""],
    ["      A 29 % unbroken each", 9, 29, "%"],
    ["      A 8-5-2", 8, 8, ""],
    ["      A 8-5-2", 10, 5, ""],
    ["      A 8-5-2", 13, 2, ""],
    ["    rest 10 s", 11, 10, "s"],
    ["    Ines 10 as 4+3+3 rest 5 s", 15, 4, ""],
    ["  handover 3 s", 12, 3, "s"],
    ["repeat 5", 8, 5, ""],
  ] as const)("“%s” at %i is %i%s", (line, column, value, unit) => {
    const found = numberAt(line, column);
    expect(found && [found.value, found.unit]).toEqual([value, unit]);
    expect(found?.values).toContain(value);
    expect(line.slice(found?.from, found?.to)).toBe(String(value));
  });

  it.each([
    ["  2026-03-20 18:00  Two Ladders", 5],
    ["  2026-03-20 18:00  Two Ladders", 14],
    ["# heading 5", 11],
    ["    A 7 // not 8", 15],
    ['  stage "round 3" 10', 14],
    ["    A 2.5", 7],
    ["  rest 2:30", 8],
    ["    Ines rest", 6],
    ["  A4 7", 4],
  ])("“%s” at %i is none", (line, column) => {
    expect(numberAt(line, column)).toBeNull();
  });

  it("has neighbours to look at: from 1 for reps, from nothing for a rest, within a hundred of a percentage, in order", () => {
    expect(numberAt("A 3", 3)?.values).toEqual([1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11]);
    expect(numberAt("A 20", 4)?.values.slice(0, 3)).toEqual([1, 12, 13]);
    expect(numberAt("rest 6 s", 6)?.values.slice(0, 4)).toEqual([0, 2, 4, 6]);
    for (const line of ["A 95 % unbroken", "A 2 % unbroken"])
      expect(Math.max(...(numberAt(line, 3)?.values ?? [])) <= 100 && Math.min(...(numberAt(line, 3)?.values ?? [])) >= 1).toBe(true);
  });
});
