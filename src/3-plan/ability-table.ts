import type { Line } from "./ast.js";
import { format } from "./format.js";
import { openDocument } from "./open.js";
import { printName } from "./print-parts.js";

export type TableRead = { readonly ok: true; readonly text: string } | { readonly ok: false; readonly reason: string };

const measure = /\s+(unbroken|cycle|hold|max|recovery|fade|in\s+\d+(?:[.,]\d+)?\s*(?:min|s))(\s*@.*)?$/i;
const usualUnit: Readonly<Record<string, string>> = {
  unbroken: "reps",
  in: "reps",
  cycle: "s",
  hold: "s",
  max: "kg",
  fade: "%",
  recovery: "",
};
const units: Readonly<Record<string, string>> = {
  rep: "reps",
  reps: "reps",
  s: "s",
  sec: "s",
  secs: "s",
  second: "s",
  seconds: "s",
  min: "min",
  mins: "min",
  kg: "kg",
  kgs: "kg",
  lb: "lb",
  lbs: "lb",
  "%": "%",
};
const nothing = /^(|-|–|—|n\/?a|\?)$/i;

/**
 * Rows of a spreadsheet → the text of an `ability` block. The first row names the athletes, over their columns; before them
 * stand movement or hold and measure, in one cell or two; behind them, perhaps, a unit. Cells may have a unit, a decimal
 * comma, `1:22`, or nothing. `athletes`: those that the notebook knows.
 */
export function abilityFrom(table: readonly (readonly string[])[], athletes: readonly string[]): TableRead {
  const [heads, ...rows] = table
    .map((row) => row.map((cell) => cell.replace(/[\u00a0\u202f]/g, " ").trim()))
    .filter((row) => row.some((cell) => cell !== ""));
  if (!heads || rows.length === 0) return refused("There is no row under the names of the athletes.");
  const known = heads.flatMap((head, at) => (athletes.includes(head) ? [at] : []));
  const columns =
    known.length > 0 ? known : heads.flatMap((head, at) => (at >= leading(heads, rows) && head !== "" && !isUnitHead(head) ? [at] : []));
  const [first] = columns;
  if (first === undefined || first === 0)
    return refused("The first row names no athletes: their names stand over their columns, behind the movement and what was measured.");
  const unitAt = heads.findIndex((head, at) => at > (columns.at(-1) ?? 0) && (isUnitHead(head) || head === ""));
  const lines: string[] = [];
  for (const [at, row] of rows.entries()) {
    const line = rowText(row, columns, row.slice(0, first), unitAt < 0 ? "" : (row[unitAt] ?? ""));
    if (!line.ok) return refused(`Row ${at + 2}: ${line.reason}`);
    lines.push(`  ${line.text}`);
  }
  const text = format(`ability ${columns.map((at) => printName({ text: heads[at] ?? "" })).join(" ")}\n${lines.join("\n")}\n`);
  const wrong = openDocument({ path: "", text }, null).blocks.flatMap(({ read }) => read.problems)[0];
  return wrong ? refused("It holds names or numbers that do not fit into an ability block.") : { ok: true, text };
}

function refused(reason: string): TableRead {
  return { ok: false, reason };
}

function isUnitHead(head: string): boolean {
  return /^units?$/i.test(head);
}

/** Columns before the athletes where no name is known: one, or two where the second holds what was measured. */
function leading(heads: readonly string[], rows: readonly (readonly string[])[]): number {
  return /^(measure|test|what)?$/i.test(heads[1] ?? "-") || rows.every((row) => measure.test(` ${row[1] ?? ""}`)) ? 2 : 1;
}

function rowText(row: readonly string[], columns: readonly number[], label: readonly string[], unitCell: string): TableRead {
  const words = label.filter((cell) => cell !== "").join(" ");
  const found = measure.exec(` ${words}`);
  const kind = found?.[1]?.toLowerCase().replace(/\s+/g, " ").replace(",", ".") ?? "";
  const subject = ` ${words}`.slice(0, found?.index ?? 0).trim();
  if (!found || subject === "")
    return refused(
      `“${words}” says not what was measured: write the movement or hold, then unbroken, cycle, in 5 min, hold, max, fade or recovery.`,
    );
  const unit = unitCell === "" ? (usualUnit[kind.split(" ")[0] ?? ""] ?? "") : units[unitCell.toLowerCase()];
  if (unit === undefined) return refused(`“${unitCell}” is no unit here: reps, s, min, kg, lb or %.`);
  const cells: string[] = [];
  for (const at of columns) {
    const cell = row[at] ?? "";
    const read = /^(\d+(?:[.,]\d+)?|\d+:\d\d(?:[.,]\d+)?)\s*([a-z%]*)$/i.exec(cell);
    const own = read?.[2] ? units[read[2].toLowerCase()] : "";
    if (!nothing.test(cell) && (!read || own === undefined))
      return refused(`“${cell}” is no number: write 12, 2.4 s, 1:22, or leave it out.`);
    const number = (read?.[1] ?? "").replace(",", ".");
    // A unit that a cell has itself stands there; the others share the row's, at its end.
    cells.push(nothing.test(cell) ? "-" : own && own !== unit ? `${number} ${own}` : number);
  }
  const ends = cells.at(-1) ?? "";
  const bare = /^[\d.]+$/.test(ends) || ends === "-";
  const texts = bare ? cells : cells.map((cell) => (/^[\d.]+$/.test(cell) && unit !== "" ? `${cell} ${unit}` : cell));
  return {
    ok: true,
    text: `${printName({ text: subject })} ${kind}${found[2] ?? ""} ${texts.join(" ")}${bare && unit !== "" ? ` ${unit}` : ""}`,
  };
}

/** An `ability` block as rows of a spreadsheet: the same that `abilityFrom` takes. */
export function abilityRows(text: string): readonly (readonly string[])[] {
  const table = openDocument({ path: "", text }, null)
    .blocks.map(({ read }) => read.line)
    .find((line): line is Extract<Line, { kind: "ability" }> => line.kind === "ability");
  if (!table) return [];
  const head = ["", "measure", ...table.athletes.map(({ text: name }) => name), "unit"];
  const rows = table.body.flatMap((row): readonly (readonly string[])[] => {
    if (row.kind !== "ability row") return [];
    const cells = row.cells.map((cell) => text.slice(cell.span.from, cell.span.to));
    const values = cells.map((cell) => cell.replace(/\s*(reps?|s|kg|lb|%|min)$/, ""));
    const said = new Set(cells.map((cell) => /(reps?|s|kg|lb|%|min)$/.exec(cell)?.[1] ?? "").filter((one) => one !== ""));
    const [unit = ""] = said;
    return [
      [
        row.subject.text,
        text.slice(row.measure.span.from, row.load?.span.to ?? row.measure.span.to),
        ...(said.size > 1 ? cells : values),
        said.size > 1 ? "" : unit,
      ],
    ];
  });
  return [head, ...rows];
}
