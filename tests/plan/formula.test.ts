import { describe, expect, it } from "vitest";
import { blocksOf } from "../../src/2-tree/blocks.js";
import { parse } from "../../src/2-tree/parse.js";
import { compute, formulaBounds } from "../../src/3-plan/formula.js";
import { nameUnknown } from "../../src/3-plan/names.js";
import { readBlock } from "../../src/3-plan/read.js";
import { answersOf, compileText, findingsOf } from "../notebook.js";

function value(expression: string): unknown {
  const text = `let x = ${expression}`;
  const [block] = blocksOf(text, parse(text).tree);
  const line = block && readBlock(block).line;
  if (line?.kind !== "let") return "broken";
  const computed = compute(line.value, (path, span) =>
    path.join(".") === "best"
      ? { ok: true, amount: { value: 12, dimension: "count" } }
      : { ok: false, problem: nameUnknown("value", { text: path.join("."), span }, []) },
  );
  if (computed.ok) return `${Number(computed.amount.value.toPrecision(12))} ${computed.amount.dimension}`;
  const { problem } = computed;
  const { rule, span } = problem;
  return `${rule} ${problem.rule === "does-not-compute" ? problem.values.reason : ""} at “${text.slice(span.from, span.to)}”`;
}

describe("formulas", () => {
  it.each([
    ["1 + 2 * 3", "7 number"],
    ["(1 + 2) * 3", "9 number"],
    ["2 ^ 3 ^ 2", "512 number"],
    ["7 - 2 - 1", "4 number"],
    ["-3 + 5", "2 number"],
    ["10 % * 50", "5 number"],
    ["3 min + 20 s", "200 time"],
    ["min(1, 2)", "1 number"],
    ["3 min + min(1, 2) * 20 s", "200 time"],
    ["max(3 min, 200 s)", "200 time"],
    ["2:30 + 0:30", "180 time"],
    // 1 lb = 0.45359237 kg, exactly (international agreement of 1959).
    ["95 lb to kg", "43.09127515 load"],
    ["45 lb", "20.41165665 load"],
    ["1 h / 2", "1800 time"],
    ["400 m / 2", "200 length"],
    ["round(0.28 * best)", "3 count"],
    ["floor(2.9)", "2 number"],
    ["ceil(2.1)", "3 number"],
    ["abs(-4 s)", "4 time"],
    ["sqrt(16)", "4 number"],
    ["3 reps * 2", "6 count"],
    ["10 min / 30 s", "20 number"],
  ])("%s is %s", (expression, wanted) => expect(value(expression)).toBe(wanted));

  it.each([
    ["3 kg + 2 s", "does-not-compute units differ at “3 kg + 2 s”"],
    ["1 + (3 kg * (2 + 3 s))", "does-not-compute units differ at “2 + 3 s”"],
    ["1 / 0", "does-not-compute no number at “1 / 0”"],
    ["foo(2)", "does-not-compute unknown function at “foo”"],
    ["round(1, 2)", "does-not-compute inputs at “round(1, 2)”"],
    ["3 parsecs", "does-not-compute unknown unit at “parsecs”"],
    ["2 + nobody.time", "unknown-name  at “nobody.time”"],
    ["3 kg * 2 s", "does-not-compute odd unit at “3 kg * 2 s”"],
    ["2 ^ 3 s", "does-not-compute units differ at “2 ^ 3 s”"],
  ])("%s: %s", (expression, wanted) => expect(value(expression)).toBe(wanted));

  it.each([
    "constructor",
    "__proto__",
    "toString()",
    "evaluate(1)",
    "import(1)",
    "createUnit(1)",
    "best.constructor",
    "hasOwnProperty(1)",
    "map(1)",
    "typed(1)",
  ])("nothing outside the allow-list is reached: %s", (expression) => {
    expect(String(value(expression))).toMatch(/unknown|broken/);
  });

  it("is bounded in length, parts and depth", () => {
    const deep = formulaBounds.depth + 5;
    expect(value(Array.from({ length: 80 }, () => "1").join(" + "))).toMatch(/too deep|too long/);
    expect(value(`${"(".repeat(deep)}1${")".repeat(deep)}`)).toMatch(/too deep/);
    expect(value("1".repeat(formulaBounds.length + 10))).toMatch(/too long/);
  });
});

describe("values of the notebook", () => {
  const text = "let a = b + 1\nlet b = c * 2\nlet c = 5\nlet two_words = 3\nlet d = two_words + 1\n";

  it("may be used before and after they are declared", () => {
    expect([...answersOf(compileText(text)).values()]).toEqual(["11", "10", "5", "3", "4"]);
  });

  it("a cycle is one finding on every line of it, and one on a line that waits for it", () => {
    const found = findingsOf(compileText("let a = b\nlet b = c + 1\nlet c = a\nlet d = a + 1\n"));
    expect(found.map(({ rule, marked }) => [rule, marked])).toEqual([
      ["cycle", "b"],
      ["cycle", "c"],
      ["cycle", "a"],
      ["does-not-compute", "a"],
    ]);
  });

  it("a plan whose size waits for its own time is a cycle on both lines", () => {
    const plan =
      "team T\n  Ada woman\nability Ada\n  jump unbroken 20 reps\n  jump cycle 2 s\nevent E\n  stage 10 jump\nplan P for E\n  Ada (round(x / 1 s))\n  Ada 10\nlet x = P.time\n";
    expect(
      findingsOf(compileText(plan))
        .filter(({ rule }) => rule === "cycle")
        .map(({ marked }) => marked),
    ).toEqual(["x", "P.time"]);
  });
});

describe("many values", () => {
  it.each([
    ["each on the one before", (at: number) => (at === 0 ? "let v0 = 1" : `let v${at} = v${at - 1} + 1`)],
    ["each on the one after", (at: number) => (at === 699 ? "let v699 = 1" : `let v${at} = v${at + 1} + 1`)],
  ])("seven hundred, %s: all have their value", (_name, line) => {
    const compiled = compileText(Array.from({ length: 700 }, (_, at) => line(at)).join("\n"));
    expect(findingsOf(compiled)).toEqual([]);
    expect(Math.max(...[...answersOf(compiled).values()].map(Number))).toBe(700);
  });

  it("three thousand signs or brackets are refused, and the next line has its answer", () => {
    for (const deep of ["-".repeat(3_000), "(".repeat(3_000)]) {
      const compiled = compileText(`let x = ${deep}1\nlet y = 2\n`);
      expect(findingsOf(compiled).map(({ severity }) => severity)).toContain("error");
      expect(answersOf(compiled).get(2)).toBe("2");
    }
  });
});
