import type { Line } from "./ast.js";
import type { Cell } from "./parts.js";
import { lineKinds } from "./lines/kinds.js";
import { joined, printCell, printLoad, printMeasure, printName, quoted, type Quoting } from "./print-parts.js";

/** AST → text: one block, two spaces an indent, one space between words; tables in columns. No comments: see format.ts. */
export function print(line: Line): string {
  return printedLines(line)
    .map(({ depth, text }) => `${"  ".repeat(depth)}${text}\n`)
    .join("");
}

export interface PrintedLine {
  readonly line: Line;
  readonly depth: number;
  readonly text: string;
}

/** Every line of a block with its depth and its text, in order; a broken line's text is empty. */
export function printedLines(line: Line, depth = 0): readonly PrintedLine[] {
  if (line.kind === "ability") return printedTable(line, depth);
  return [{ line, depth, text: printLine(line) }, ...line.body.flatMap((inner) => printedLines(inner, depth + 1))];
}

/** A line by itself; of a broken one nothing. */
export function printLine(line: Line, quote: Quoting = printName): string {
  return line.kind === "broken" ? "" : lineKinds[line.kind].print(line, quote);
}

/** A line by itself with every name in quotes: for names that would be read as something else. */
export function printQuoted(line: Line): string {
  return printLine(line, quoted);
}

/** An ability table in columns: subjects and measures to the left, values right under their athlete's name. */
function printedTable(table: Extract<Line, { kind: "ability" }>, depth: number): readonly PrintedLine[] {
  const rows = table.body.map((line) =>
    line.kind === "ability row"
      ? { line, head: [printName(line.subject), joined(printMeasure(line.measure), printLoad(line.load))], cells: cellTexts(line.cells) }
      : { line, head: [printLine(line)], cells: null },
  );
  const full = rows.filter((row) => row.cells !== null);
  const width = (at: number) => Math.max(0, ...full.map(({ head }) => head[at]?.length ?? 0));
  const [subjects, measures] = [width(0), width(1)];
  const left = 2 + subjects + 2 + measures;
  const head = joined("ability", table.on && `on ${table.on}`);
  const names = table.athletes.map(printName);
  const column = (at: number) => Math.max(names[at]?.length ?? 0, ...full.map(({ cells }) => cells?.values[at]?.length ?? 0));
  const offset = Math.max(left, head.length);
  const title = head.padEnd(offset) + names.map((name, at) => `  ${name.padStart(column(at))}`).join("");
  const body = rows.flatMap(({ line, head: words, cells }): readonly PrintedLine[] => {
    const inner = line.body.flatMap((child) => printedLines(child, depth + 2));
    if (!cells) return [{ line, depth: depth + 1, text: words[0] ?? "" }, ...inner];
    const start = `${(words[0] ?? "").padEnd(subjects)}  ${words[1] ?? ""}`.padEnd(offset - 2);
    const text = start + cells.values.map((cell, at) => `  ${cell.padStart(column(at))}`).join("") + (cells.unit ? `  ${cells.unit}` : "");
    return [{ line, depth: depth + 1, text }, ...inner];
  });
  return [{ line: table, depth, text: title.trimEnd() }, ...body];
}

/** The cells of a row; the last cell's unit stands at the end of the row when no cell before it has one. */
function cellTexts(cells: readonly Cell[]): { readonly values: readonly string[]; readonly unit: string | null } {
  const last = cells.at(-1);
  const carries = last?.kind === "unknown" || (last?.kind === "value" && !last.clock);
  const shared =
    carries && cells.slice(0, -1).every((cell) => cell.kind === "paren" || cell.unit === null || (cell.kind === "value" && cell.clock));
  if (!shared || last.unit === null) return { values: cells.map(printCell), unit: null };
  const bare = { ...last, unit: null };
  return { values: [...cells.slice(0, -1), bare].map(printCell), unit: last.unit === "rep" ? "reps" : last.unit };
}
