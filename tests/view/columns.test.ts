/** Answers as rows of a table. */
import { describe, expect, it } from "vitest";
import { compile } from "../../src/compile.js";
import { brief, columns, fieldsOf, tabbed } from "../../src/7-view/columns.js";

const text = `team Pine
  Ada woman
  Olu man
event Sprint
  score time
  cap 5 min
  stage 40 jump
ability  Ada Olu
  jump unbroken 20 20 reps
  jump cycle 2 2 s
  jump fade 0 0 %
plan Simple for Sprint
  repeat
    Ada 5
    Olu 5
`;

const plan = compile([{ path: "a.rota", text }])
  .documents.get("a.rota")
  ?.blocks.at(-1);
const rows = plan?.answers.flatMap(({ row }) => (row ? [row] : [])) ?? [];

describe("the row of a line", () => {
  it("a turn: 5 reps of 2 s from 0:00, again four times; the other's after a handover of 3 s", () => {
    const turns = rows.filter(({ cells }) => cells.some(({ column }) => column === "left"));
    expect(turns.map((row) => fieldsOf(row).slice(0, 3))).toEqual([
      ["0:00", "0:10", "5 of 40"],
      ["0:13", "0:23", "10 of 40"],
    ]);
    expect(turns.map((row) => fieldsOf(row).at(-1))).toEqual(["×4", "×4"]);
  });

  it("has a field for each head, and says in a few words what matters most", () => {
    for (const row of rows) expect(fieldsOf(row)).toHaveLength(columns[row.table].length);
    expect(rows.map(brief)).toContainEqual(expect.stringMatching(/^0:00–0:10 · 5 of 40 · least \d+ %$/));
  });

  it("lines copied with them are separated by tabs, under the heads of their table", () => {
    const copied = tabbed([
      { text: "plan Simple", shown: "1:41 on paper", row: null },
      ...rows.slice(1, 3).map((row) => ({ text: "    Ada\t5", shown: "", row })),
      { text: "", shown: "", row: null },
    ]);
    expect(copied.split("\n").map((line) => line.split("\t").length)).toEqual([2, 8, 8, 8, 1]);
    expect(copied.split("\n")[1]).toBe("\tfrom\tto\tdone\tleft\tleast\tchance\tpasses");
    expect(copied).not.toContain("Ada\t5");
  });
});
