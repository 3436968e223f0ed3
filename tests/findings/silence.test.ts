import { describe, expect, it } from "vitest";
import { compileText, findingsOf } from "../notebook.js";

const ground =
  "team Pier Nine\n  Ada woman\n  Olu man\nability  Ada  Olu\n  box jump  unbroken  20  24  reps\n  box jump  cycle  2  2  s\n  box jump  fade  0  0  %\nevent Drill\n  score reps\n  cap 4 min\n  stage box jump\n";
const rulesOf = (plan: string) => findingsOf(compileText(ground + plan)).map(({ rule }) => rule);

describe("a silence", () => {
  it("on a line silences a warning there and only there", () => {
    expect(rulesOf("plan P for Drill\n  Ada 7\n  Olu 9\n")).toEqual(["opens-hard", "opens-hard"]);
    expect(rulesOf("plan P for Drill\n  Ada 7  // allow opens-hard: a test\n  Olu 9\n")).toEqual(["opens-hard"]);
  });

  it("on a block's head silences in all of it; on a line of its own, what follows", () => {
    expect(rulesOf("plan P for Drill  // allow opens-hard: a test\n  Ada 7\n  Olu 9\n")).toEqual([]);
    expect(rulesOf("plan P for Drill\n  // allow opens-hard: a test\n  repeat 1\n    Ada 7\n    Olu 9\n")).toEqual([]);
  });

  it("names several rules at once, and is a note where it has nothing to silence", () => {
    expect(rulesOf("plan P for Drill\n  Ada 7  // allow opens-hard, set-too-long: a test\n  Olu 8\n")).toEqual(["idle-silence"]);
    expect(rulesOf("plan P for Drill\n  Ada 6  // allow nonsense: a test\n  Olu 8\n")).toEqual(["idle-silence"]);
  });

  it("cannot silence an error", () => {
    expect(rulesOf("plan P for Drill\n  Ada + Olu 5  // allow say-how: they know\n")).toEqual(["say-how", "idle-silence"]);
  });
});
