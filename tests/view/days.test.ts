import { describe, expect, it } from "vitest";
import { drawnIn } from "../../src/compile.js";
import { spreadOf } from "../../src/4-timeline/spread.js";
import { answersWithDays } from "../../src/7-view/spread-words.js";
import { clock } from "../../src/0-base/quantity.js";
import { compileText } from "../notebook.js";

const text = `team Pier Nine
  Ada  woman
  Olu  man
ability    Ada  Olu
  box jump  unbroken  20  24  reps
  box jump  cycle  2  2  s
event Sprint
  cap 5 min
  stage 40 box jump
plan Fives for Sprint
  repeat
    Ada 5
    Olu 5
`;
const saidOf = (notebook: string, kind: string): string => {
  const compiled = compileText(notebook);
  const block = [...compiled.documents.values()].flatMap(({ blocks }) => blocks).find(({ block: { read } }) => read.line.kind === kind);
  return block ? (answersWithDays(block, drawnIn(compiled))[0]?.shown ?? "") : "";
};

describe("what drawn days add to the answers", () => {
  it("a plan begins with its middle day and the range of eight days of ten; the lines' own time is called that of the paper", () => {
    const compiled = compileText(text);
    const days = drawnIn(compiled).named("Fives");
    if (!days) throw new Error("no days");
    const { p10, p50, p90 } = spreadOf(days);
    expect(saidOf(text, "plan").startsWith(`${clock(p50)} on the middle day · ${clock(p10)}–${clock(p90)} on 8 days of 10 · `)).toBe(true);
    expect(saidOf(text, "plan")).toMatch(/ · \d:\d\d on paper · \d:\d\d inside the cap$/);
  });

  it("an expectation says on how many days it is met", () => {
    const compiled = compileText(text);
    const scores = [...(drawnIn(compiled).named("Fives")?.scores ?? [])];
    const limit = 105;
    const met = Math.round((100 * scores.filter((score) => score < limit).length) / scores.length);
    expect(saidOf(`${text}expect Fives.time under 1:45\n`, "expect")).toMatch(new RegExp(`· on ${met} % of days$`));
  });

  it("a comparison says how often one beats the other, and each one's middle day", () => {
    const both = `${text}${text.slice(text.indexOf("plan")).replace("Fives", "Ones").replace("Ada 5", "Ada 1")}compare Fives, Ones\n`;
    expect(saidOf(both, "compare")).toMatch(/^Fives beats Ones on \d+ % of days · Fives \d:\d\d, Ones \d:\d\d on the middle day$/);
  });

  it("twins of one name have their own days", () => {
    const compiled = compileText(text + text.slice(text.indexOf("plan")).replace("Ada 5", "Ada 1"));
    const [first, second] = [...compiled.documents.values()]
      .flatMap(({ blocks }) => blocks.flatMap(({ plan }) => plan ?? []))
      .map((plan) => drawnIn(compiled).of(plan));
    expect(first && second && spreadOf(first).p50).not.toBe(second && spreadOf(second).p50);
  });
});
