/** A fixed part of `npm run fuzz`: nothing throws, nothing says what is no number, formatting changes no meaning and is done once. */
import { describe, expect, it } from "vitest";
import { editFaults, faultsOf, linesInPlan, longPlan, mutated, seeded, shortInput } from "./inputs.js";

describe("whatever is typed", () => {
  it.each([
    ["short inputs", shortInput, 1_000],
    ["changed documents", mutated, 40],
    ["lines of all kinds, and clauses in a row", linesInPlan, 40],
    ["the longest plans", longPlan, 8],
  ] as const)("%s", (_name, make, count) => {
    const random = seeded(7);
    const found = Array.from({ length: count }, () => make(random)).flatMap((input) =>
      faultsOf(input)
        .filter((fault) => !fault.startsWith("takes"))
        .map((fault) => `${fault}: ${JSON.stringify(input)}`),
    );
    expect(found).toEqual([]);
  });

  it("what it once found", () => {
    // A date was taken for a row of counts once the formatter had set it apart from the word behind it.
    expect(faultsOf("round as <b> lane\n    2026-03-20keep\nfinish ")).toEqual([]);
    // Without its quotes the name was taken for a man of the team.
    expect(faultsOf('on 2,5\n  team\n    window "max"\n    reps\n  asks\nrepeat\n')).toEqual([]);
    // A hundred tries at one hour: where each could go was asked of every day, and of all others for each.
    const tries = "  2026-03-25 18:00  Tide\n".repeat(100);
    expect(faultsOf(`week W\n  at most 1 event a day\n  2026-03-20 18:00  Ladder\n  2026-03-29 18:00  Split\n${tries}`)).toEqual([]);
  });

  it("rows of edits: the answers are those of a fresh compilation", () => {
    expect([1].flatMap((seed) => editFaults(seed, 12))).toEqual([]);
  });
});
