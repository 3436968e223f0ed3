import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { compute } from "../../src/3-plan/formula.js";
import { blocksOf } from "../../src/2-tree/blocks.js";
import { parse } from "../../src/2-tree/parse.js";
import { nameUnknown } from "../../src/3-plan/names.js";
import { readBlock } from "../../src/3-plan/read.js";
import type { Timeline } from "../../src/4-timeline/timeline.js";
import { compileText, findingsOf, timelineOf } from "../notebook.js";

const ground = `team Pier Nine
  Ada woman
  Eve woman
  Olu man
  Sam man
ability  Ada  Eve  Olu  Sam
  box jump  unbroken  1000  1000  1000  1000  reps
  box jump  cycle  2  3  2  2.5  s
  box jump  fade  0  0  0  0  %
  step  unbroken  1000  1000  1000  1000  reps
  step  cycle  2  3  2  2.5  s
  step  fade  0  0  0  0  %
  stone  hold  1800  1800  1800  1800  s
assume set-up 0 s
`;

function arithmetic(text: string): number {
  const [block] = blocksOf(`let x = ${text}`, parse(`let x = ${text}`).tree);
  const line = block && readBlock(block).line;
  if (line?.kind !== "let") throw new Error(`no arithmetic: ${text}`);
  const computed = compute(line.value, (path, span) => ({ ok: false, problem: nameUnknown("value", { text: path.join("."), span }, []) }));
  if (!computed.ok) throw new Error(`no arithmetic: ${text}`);
  return computed.amount.value;
}

function factOf(timeline: Timeline, name: string): number {
  if (name === "end") return timeline.endS;
  if (name === "score") return timeline.score.value;
  if (name === "turns") return timeline.turns.length;
  const [kind = "", of = "", fact = ""] = name.split(".");
  if (kind === "turn") {
    const run = timeline.turns[Number(of) - 1];
    const facts: Record<string, number | undefined> = {
      start: run?.startS,
      end: run?.endS,
      reps: run?.athletes.reduce((sum, { reps }) => sum + reps, 0),
    };
    return facts[fact] ?? Number.NaN;
  }
  if (kind === "stage") {
    const stage = timeline.stages.find((run) => run.name === of);
    const facts: Record<string, number | undefined> = { end: stage?.endS, reps: stage?.reps, rounds: stage?.rounds };
    return facts[fact] ?? Number.NaN;
  }
  const totals = timeline.athletes.find((one) => one.name === kind);
  const facts: Record<string, number | undefined> = { reps: totals?.reps, work: totals?.work, hold: totals?.hold, rest: totals?.rest };
  return facts[of] ?? Number.NaN;
}

const cases = readFileSync(new URL("worked.txt", import.meta.url), "utf8")
  .split(/^=== /m)
  .slice(1);

describe("worked examples", () => {
  it.each(cases.map((text) => [text.slice(0, text.indexOf("\n")), text] as const))("%s", (title, text) => {
    const [document = "", expected = ""] = text.slice(title.length + 1).split("==>\n");
    const compiled = compileText(ground + document);
    expect(
      findingsOf(compiled)
        .filter(({ severity }) => severity === "error")
        .map(({ message }) => message),
    ).toEqual([]);
    const timeline = timelineOf(compiled);
    const rows = expected.trim().split("\n");
    expect(rows.length).toBeGreaterThan(0);
    for (const row of rows) {
      const [, name = "", sum = "", value = ""] = /^(\S.*?) = (.+) = ([\d.]+)$/.exec(row) ?? [];
      expect(arithmetic(sum), row).toBeCloseTo(Number(value), 9);
      expect(factOf(timeline, name), row).toBeCloseTo(Number(value), 6);
    }
  });
});
