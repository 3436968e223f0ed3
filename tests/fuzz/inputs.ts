/** Random inputs for the whole way from text to answers, and what must hold for each of them. */
import type { Document } from "../../src/1-text/document.js";
import { format } from "../../src/3-plan/format.js";
import { allKinds } from "../../src/3-plan/lines/kinds.js";
import { compile, type Compiled } from "../../src/compile.js";
import { headWords } from "../../grammar/tokens.js";
import { brokenLines } from "../grammar/broken-lines.js";
import { readDocuments } from "../notebook.js";

/** A seeded generator of numbers below 1 (mulberry32). */
export function seeded(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

const words = [
  ...headWords,
  "Ada",
  "Olu",
  "Ines",
  "王",
  "é",
  "e\u0301",
  "Łukasz",
  "for",
  "on",
  "each",
  "in sync",
  "together",
  "shared",
  "while",
  "hold",
  "until",
  "ready",
  "round",
  "rounds",
  "again",
  "as",
  "unbroken",
  "cycle",
  "5",
  "0",
  "-3",
  "1e3",
  "2.5",
  "2,5",
  "28 %",
  "7-6-5",
  "4+3+3",
  "40 s",
  "2:30",
  "1:02:30",
  "20 kg",
  "20/15 kg",
  "400 m",
  "50 cal",
  "10^24",
  "2026-03-20",
  "18:00",
  "16:00–21:00",
  '"max"',
  '"',
  "(",
  ")",
  "=",
  "@",
  "+",
  ",",
  "*",
  "//",
  "#",
  ">",
  "\u00a0",
  "\u200b",
  "\u202e",
  "\t",
  "\r",
  "😀",
  "\u0007",
  "${x}",
  "<b>",
  "__proto__",
  "constructor",
];
const joints = [" ", " ", " ", " ", "\n", "\n  ", "\n    ", ""];

/** A few words in a row, as a hand that rests on the keys would type them. */
export function shortInput(random: () => number): string {
  const pick = <T>(from: readonly T[]): T | undefined => from[Math.floor(random() * from.length)];
  return Array.from({ length: 1 + Math.floor(random() * 9) }, () => `${pick(words) ?? ""}${pick(joints) ?? ""}`).join("");
}

const clauses = [
  "each",
  "in sync",
  "together",
  "shared",
  "again",
  "as 4+3+3",
  "as 4+3+3 rest 4 s",
  "while Ada hold",
  "while others hold",
  "28 % unbroken",
  "70-27 % unbroken",
  "7-6-5",
  "+ Olu 8",
  "rest 5 s",
  "rest 5 s then 3 s",
  "rest until ready",
  "@ 20/15 kg",
  "within 5 min",
  "then rest 2 min",
  "every 10 reps",
  "for women",
  "on bar",
  "until 2:30",
  "6, 9, …",
  ", swing as 8+8",
];
const samples = allKinds.flatMap((kind) => kind.samples);
/** How often a clause or a line stands in a row: once as a rule, and seldom as often as a key that is held writes it. */
const oftens = [1, 1, 1, 1, 1, 1, 2, 3, 12, 300];

/** Lines of every kind, whole or with a clause more, once or many times, below lines that they may belong to. */
export function linesInPlan(random: () => number): string {
  const pick = <T>(from: readonly T[]): T | undefined => from[Math.floor(random() * from.length)];
  const often = (): number => pick(oftens) ?? 1;
  const line = (): string => {
    const sample = pick(samples) ?? "";
    const words = random() < 0.5 ? sample.split(" ") : [sample];
    if (random() < 0.7) words.splice(Math.ceil(random() * words.length), 0, ...new Array<string>(often()).fill(pick(clauses) ?? ""));
    return `${"  ".repeat(Math.floor(random() * 4))}${words.join(" ")}`;
  };
  const rows = (pick(whole) ?? "").split("\n");
  for (let nth = 0; nth < 3; nth += 1) {
    const written = random() < 0.7 ? line() : (pick(rows) ?? "");
    rows.splice(Math.floor(random() * (rows.length + 1)), 0, ...new Array<string>(often()).fill(written));
  }
  return rows.join("\n");
}

const team = ["Amy", "Bob", "Cal", "Dee", "Eve", "Fay", "Gus", "Hal"];

/** The longest plans that can be written: lanes side by side to the longest cap, who can do little, turns of any size. */
export function longPlan(random: () => number): string {
  const one = <Of>(of: readonly [Of, ...Of[]]): Of => of[Math.floor(random() * of.length)] ?? of[0];
  const row = (value: number, unit: string): string => `${team.map(() => value).join("  ")} ${unit}`;
  const names = team.slice(0, one([8, 8, 4, 2]));
  const hold = random() < 0.3;
  const size = one(["1", "5", "40", "5000", "5 each", "50 % unbroken", "5-4-3-2-1", "10 as 4+3+3 rest 1 s", "8 rounds"]);
  const body = (name: string, holder: string): string[] => [
    one(["repeat", "repeat, each when ready", "repeat 5000", "repeat until 239:00"]),
    `  ${name} ${size}${hold ? ` while ${holder} hold` : ""}`,
    ...one([
      [],
      [],
      ["  rest 1 s"],
      ["  rest until 60 %"],
      ["  rest until ready"],
      [`  ${name} ${size}${hold ? ` while ${holder} hold` : ""}`],
    ]),
  ];
  const lanes = random() < 0.7;
  const lines = names.flatMap((name, at) => {
    const own = body(name, names[(at + 1) % names.length] ?? name);
    return lanes ? [`lane ${name}`, ...own.map((line) => `  ${line}`)] : own;
  });
  return [
    "team T",
    ...team.map((name, at) => `  ${name} ${at % 2 ? "man" : "woman"}`),
    `ability ${team.join(" ")}`,
    `  jump unbroken ${row(one([1, 5, 20, 400]), "reps")}`,
    `  jump cycle ${row(one([0.5, 2, 10]), "s")}`,
    `  log hold ${row(one([2, 60]), "s")}`,
    "event E",
    `  score ${one(["reps", "time"])}`,
    "  cap 240 min",
    `  stage ${one(["", "5000 "])}jump${hold ? " while 1 hold log" : ""}`,
    ...(size === "8 rounds" ? ["    round of 5000", "      5 jump"] : []),
    ...one([[], [], ["  rule share within 5 %"], ["  rule rest at least 20 s between sets"], ["  drop costs 2 reps"]]),
    "plan P for E",
    ...lines.map((line) => `  ${line}`),
  ].join("\n");
}

const whole = [...readDocuments("notebooks/lighthouse"), ...readDocuments("tests/documents")].map(({ text }) => text);
const pieces = [
  "\n",
  "  ",
  "7",
  " each",
  "\n    Ines 5",
  " while Bram hold",
  " // x",
  "# y\n",
  "(",
  '"',
  " rest 5 s",
  "\t",
  "999999999",
  "-",
  ...brokenLines,
];

/** A change of a few letters somewhere. */
export function changed(text: string, random: () => number): string {
  const at = Math.floor(random() * (text.length + 1));
  if (random() < 0.4) return text.slice(0, at) + text.slice(at + Math.floor(random() * 14));
  return text.slice(0, at) + (pieces[Math.floor(random() * pieces.length)] ?? "") + text.slice(at);
}

/** A document that somebody wrote, with some changes. */
export function mutated(random: () => number): string {
  let text = whole[Math.floor(random() * whole.length)] ?? "";
  for (let nth = 0; nth <= Math.floor(random() * 4); nth += 1) text = changed(text, random);
  return text;
}

/** What no input may take, ms of this process: a machine that does other things as well is slower by the clock alone. */
const mostMs = 1_000;

function saidOf(compiled: Compiled): string {
  return JSON.stringify(
    [...compiled.documents].map(([path, { blocks }]) => [
      path,
      blocks.map(({ answers, findings, plan }) => [answers, findings, plan?.timeline?.score]),
    ]),
  );
}

/** Scores of the plans, and what is found, by rule: what formatting may not change. */
function meaningOf(compiled: Compiled): string {
  const blocks = [...compiled.documents.values()].flatMap((document) => document.blocks);
  return JSON.stringify([
    blocks.map(({ plan }) => plan?.timeline?.score ?? null),
    blocks
      .flatMap(({ findings }) => findings.map(({ rule, message }) => `${rule} ${message.replace(/[\s\u200b-\u200f\ufeff]+/g, "")}`))
      .sort(),
  ]);
}

/** What does not hold for a text; nothing where all does. */
export function faultsOf(text: string): readonly string[] {
  const found: string[] = [];
  const start = process.cpuUsage();
  try {
    const compiled = compile([{ path: "a.rota", text }]);
    const said = saidOf(compiled);
    if (/NaN|undefined|\[object|Infinity/.test(said) && !/NaN|undefined|\[object|Infinity/.test(text)) found.push("says what is no number");
    const formatted = format(text);
    if (format(formatted) !== formatted) found.push("formatting twice is not formatting once");
    if (meaningOf(compile([{ path: "a.rota", text: formatted }])) !== meaningOf(compiled)) found.push("formatting changes what is meant");
  } catch (error) {
    found.push(`throws: ${error instanceof Error ? (error.stack ?? "").split("\n").slice(0, 3).join(" | ") : String(error)}`);
  }
  const tookMs = process.cpuUsage(start).user / 1_000;
  // Two compilations and two formattings.
  if (tookMs > 4 * mostMs) found.push(`takes ${Math.round(tookMs)} ms`);
  return found;
}

/** A row of edits to a notebook: after each the answers are those of a fresh compilation. */
export function editFaults(seed: number, edits: number): readonly string[] {
  const random = seeded(seed);
  let documents: readonly Document[] = readDocuments("notebooks/lighthouse");
  let compiled = compile(documents);
  for (let nth = 0; nth < edits; nth += 1) {
    const which = Math.floor(random() * documents.length);
    documents = documents.map((document, at) => (at === which ? { path: document.path, text: changed(document.text, random) } : document));
    compiled = compile(documents, compiled);
    if (saidOf(compiled) !== saidOf(compile(documents)))
      return [`seed ${seed}: after edit ${nth} the answers are not a fresh compilation's`];
  }
  return [];
}
