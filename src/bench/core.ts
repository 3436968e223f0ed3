import { parser } from "../2-tree/generated/parser.js";
import { parse } from "../2-tree/parse.js";
import { compile } from "../compile.js";
import { documentOf } from "./documents.js";
import { screenLines } from "../7-view/said.js";
import { quantile, type BenchRow, times } from "./measure.js";

/** Parse, evaluate and edit-to-answer for documents of 100, 1,000 and 10,000 lines. */
export function coreRows(): readonly BenchRow[] {
  const rows = [100, 1_000, 10_000].flatMap(rowsFor);
  const [half, whole] = [5_000, 10_000].map((lines) => full(documentOf(lines), 7));
  return [
    ...rows,
    { name: "evaluate, doubled from 5,000 to 10,000 lines", ms: whole ?? 0, floorMs: half ?? 1, floor: "5,000 lines", most: 3 },
  ];
}

function full(text: string, runs: number): number {
  return quantile(times(runs, () => void compile([{ path: "a.rota", text }]).settle()));
}

function rowsFor(lines: number): readonly BenchRow[] {
  const text = documentOf(lines);
  const runs = lines > 5_000 ? 9 : 40;
  const bareMs = quantile(times(runs, () => void parser.parse(text)));
  const parseMs = quantile(times(runs, () => void parse(text)));
  const fullMs = full(text, runs);
  // A digit of a size in the middle of the document, typed and taken back in turns.
  const middle = text.indexOf(" each", text.length / 2);
  const states = [text, `${text.slice(0, middle - 1)}9${text.slice(middle)}`];
  let compiled = compile([{ path: "a.rota", text }]);
  const edit = (other: string): number =>
    quantile(
      times(60, (at) => {
        compiled = compile([{ path: "a.rota", text: at % 2 === 0 ? other : text }], compiled);
        compiled.settle();
      }),
    );
  const editMs = edit(states[1] ?? "");
  const end = text.indexOf("\n", middle);
  const commentMs = edit(`${text.slice(0, end)} // breathe${text.slice(end)}`);
  const size = lines.toLocaleString("en");
  const cell = text.indexOf("31", text.indexOf("squat  unbroken"));
  const asked = [
    ["a plan", middle - 1],
    ["an ability cell", cell],
  ] as const;
  const screens = lines === 100 ? [] : asked.map(([where, at]) => ({ where, ms: keyAndScreen(text, at, middle) }));
  return [
    ...screens.map(({ where, ms }) => ({
      name: `key in ${where} and its screen, ${size} lines`,
      ms,
      floorMs: fullMs,
      floor: "full evaluation",
      most: 1 / 10,
    })),
    { name: `parse, ${size} lines`, ms: parseMs, floorMs: bareMs, floor: "bare Lezer parse", most: null },
    { name: `evaluate, ${size} lines`, ms: fullMs, floorMs: bareMs, floor: "bare Lezer parse", most: null },
    { name: `edit to answer, ${size} lines`, ms: editMs, floorMs: fullMs, floor: "full evaluation", most: lines === 100 ? null : 1 / 20 },
    {
      name: `edit of a comment, ${size} lines`,
      ms: commentMs,
      floorMs: fullMs,
      floor: "full evaluation",
      most: lines === 100 ? null : 1 / 20,
    },
  ];
}

/**
 * A digit typed at `at` and the answers of the screen round `seen`, key after key as a hand types: what the screen does not ask
 * for is left, and no key waits for what was left by the one before.
 */
function keyAndScreen(text: string, at: number, seen: number): number {
  let compiled = compile([{ path: "a.rota", text }]);
  compiled.settle();
  return quantile(
    times(30, (key) => {
      compiled = compile([{ path: "a.rota", text: `${text.slice(0, at)}${key % 2 === 0 ? 9 : 8}${text.slice(at + 1)}` }], compiled);
      const blocks = compiled.documents.get("a.rota")?.blocks ?? [];
      const first = blocks.find(({ block }) => block.from + block.text.length >= seen)?.block.firstLine ?? 0;
      for (const block of blocks) if (Math.abs(block.block.firstLine - first) <= screenLines) void block.answers;
    }),
  );
}
