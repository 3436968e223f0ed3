/** The table of `intended.txt`: what is typed, and the lines that are offered for it. */
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { applyEdits } from "../../src/1-text/edits.js";
import { intendedBy } from "../../src/3-plan/intended.js";
import { allKinds } from "../../src/3-plan/lines/kinds.js";
import { format } from "../../src/3-plan/format.js";
import { compileText, findingsOf, timelineOf } from "../notebook.js";

const rows = readFileSync(new URL("intended.txt", import.meta.url), "utf8")
  .split("\n")
  .flatMap((row) => {
    const [under, typed, meant] = row.split(" | ");
    return under && typed && meant ? [[under, typed, meant] as const] : [];
  });

const team =
  "team Pine\n  Ana woman\n  Eva woman\n  Ian man\n  Olu man\nability Ana Eva Ian Olu\n  pull-up unbroken 30 30 30 30 reps\n  pull-up cycle 2 2 2 2 s\n  pull-up fade 0 0 0 0 %\nassume set-up 0 s\n";
const event = "event E\n  score reps\n  cap 8 min\n  handover 0 s\n  stage pull-up\n";
const plan = (lines: string): string => `${team}${event}plan P for E\n  pair A  Ana + Eva\n  pair B  Ian + Olu\n${lines}`;

function textOf(under: string, typed: string): string {
  switch (under) {
    case "plan":
      return plan(`  ${typed}\n`);
    case "team":
      return `team Oak\n  ${typed}\n`;
    case "table":
      return `team Oak\n  Ana woman\n  Eva woman\n  Ian man\n  Olu man\nability Ana Eva Ian Olu\n  ${typed}\n`;
    case "log":
      return `${plan("  Ana 5\n")}log P on 2026-03-20\n  ${typed}\n`;
    case "week":
      return `${team}${event}week W\n  ${typed}\n`;
    case "margin":
      return `${plan("  Ana 5\n")}${typed}\n`;
    default:
      return `${team}event E\n  ${typed}\n`;
  }
}

describe("what a person naturally types", () => {
  it.each(rows)("in a %s: %s", (under, typed, meant) => {
    const text = textOf(under, typed);
    const [found] = findingsOf(compileText(text)).filter(({ rule }) => rule === "said-otherwise");
    const edits = (found?.fixes[0]?.edits ?? []).map(({ span, text: by }) => ({
      span: { from: span.from + (found?.at ?? 0) - (found?.span.from ?? 0), to: span.to + (found?.at ?? 0) - (found?.span.from ?? 0) },
      text: by,
    }));
    const lines = applyEdits(text, edits)
      .split("\n")
      .slice(text.slice(0, found?.at ?? 0).split("\n").length - 1)
      .filter((line) => line.trim() !== "");
    expect(lines.map((line) => line.trim()).join(" / ")).toBe(meant);
  });

  it.each([
    ["plan", "then switch"],
    ["plan", "A 5/4"],
    ["team", "captain Ana"],
    ["event", "rule women never hold"],
    ["plan", "loop"],
    ["plan", "next pair"],
    ["team", "like Ana"],
    ["event", "work split evenly"],
    ["event", "5 burpees per drop"],
    ["event", "2 stations for women"],
    ["event", "2 lanes"],
    ["event", "2 heats"],
    ["event", "3 attempts"],
    ["event", "2 minutes rest"],
  ] as const)("in a %s, “%s” is taken for nothing", (under, typed) => {
    const text = textOf(under, typed);
    expect(findingsOf(compileText(text)).flatMap(({ fixes }) => fixes.map(({ title }) => title))).toEqual([]);
  });

  it("no line of the language is taken for another", () => {
    const taken = allKinds.flatMap(({ kind, under, samples }) =>
      samples.flatMap((sample) =>
        under.flatMap((head) => (intendedBy(sample, head, "").length > 0 ? [`${head}: ${kind}: ${sample}`] : [])),
      ),
    );
    expect(taken).toEqual([]);
  });

  it("names in other capitals, words that open a line with a capital, groups, and rests in proportion are known as they stand", () => {
    const errors = (text: string) =>
      findingsOf(compileText(text))
        .filter(({ severity }) => severity === "error")
        .map(({ message }) => message);
    for (const line of ["ana 5", "everyone 5", "women 5 each", "all 5 each", "Rest 10 s", "A 10 as 4+3+3 rest 5 s pull-ups each"])
      expect([line, errors(plan(`  ${line}\n`))]).toEqual([line, []]);
    expect(errors(plan("  Ana 5\n").replace("team Pine", "Team Pine").replace("cap 8 min", "Cap 15 min"))).toEqual([]);
    const timeline = timelineOf(compileText(plan("  Ana 5\n  rest 1:2\n  Ana 5\n")));
    // Five reps of 2 s take 10 s; twice as long is 20 s.
    expect(timeline.turns[1]?.startS).toBeCloseTo(10 + 20, 9);
    expect(timelineOf(compileText(plan("  women 5\n"))).athletes.map(({ reps }) => reps)).toEqual([5, 5, 0, 0]);
    expect(format("Team Pine\n  Ana woman\nplan P for E\n  ana 5\n")).toBe(
      "team Pine\n  Ana  woman\nplan P for E\n  Ana 5\n".replace("Ana  woman", "Ana woman"),
    );
  });

  it("calories and metres are what a stage counts, of the movement itself", () => {
    const tests =
      "  row unbroken 200 200 200 200 cal\n  row cycle 3 3 3 3 s\n  run unbroken 4000 4000 4000 4000 m\n  run cycle 0.3 0.3 0.3 0.3 s\n";
    const compiled = compileText(
      `${team.replace("assume", `${tests}assume`)}event E\n  stage 50 cal row\n  stage run  400 m run\nplan P for E\n  stage row\n    Ana 50\n  stage run\n    Eva 400 m\n`,
    );
    expect(
      findingsOf(compiled)
        .filter(({ severity }) => severity === "error")
        .map(({ message }) => message),
    ).toEqual([]);
    expect([...new Set(timelineOf(compiled).segments.flatMap(({ subject }) => subject ?? []))].sort()).toEqual(["row", "run"]);
  });
});
