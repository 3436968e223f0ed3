import { type Problem, problem } from "../0-base/problem.js";
import type { Dimension } from "../0-base/quantity.js";
import type { AbilityLine, AbilityRowLine } from "./ast.js";
import type { Category, Cell, MeasureName } from "./parts.js";
import { loadKg } from "./event.js";
import { compute } from "./formula.js";
import { subjectKey, nameUnknown } from "./names.js";
import { inBase } from "./values.js";

/** A tested number in base units, with the load it was tested at (null: the one the athlete will use) and the day. */
export interface Tested {
  readonly value: number;
  readonly loadKg: number | null;
  readonly on: string | null;
}

/** What is known of one athlete at one movement or hold. */
export interface Tests {
  readonly name: string;
  readonly measures: Map<Exclude<MeasureName, "in">, Tested>;
  /** Rows `in T`, by T in seconds. */
  readonly timed: Map<number, Tested>;
}

/** By athlete, then by subject without plural s. */
export type AbilityTable = Map<string, Map<string, Tests>>;

const dimensions: Readonly<Record<MeasureName, readonly (Dimension | "number")[]>> = {
  unbroken: ["count", "length", "number"],
  in: ["count", "length", "number"],
  cycle: ["time"],
  hold: ["time"],
  max: ["load"],
  recovery: ["number"],
  fade: ["share"],
};

/** Larger than any test, in base units. */
const largest: Readonly<Record<MeasureName, number>> = {
  unbroken: 1_000_000,
  in: 1_000_000,
  cycle: 600,
  hold: 7_200,
  max: 2_000,
  recovery: 50,
  fade: 10,
};

/** Adds a table to what is known; call in order of date: a later row wins over an earlier one of the same measure. */
export function addAbilities(
  table: AbilityTable,
  line: AbilityLine,
  athletes: ReadonlyMap<string, { readonly category: Category }>,
  report: (problem: Problem) => void,
): void {
  for (const athlete of line.athletes) if (!athletes.has(athlete.text)) report(nameUnknown("athlete", athlete, athletes.keys()));
  for (const row of line.body) if (row.kind === "ability row") addRow(table, line, row, athletes, report);
}

function addRow(
  table: AbilityTable,
  { athletes: columns, on }: AbilityLine,
  row: AbilityRowLine,
  athletes: ReadonlyMap<string, { readonly category: Category }>,
  report: (problem: Problem) => void,
): void {
  if (row.cells.length !== columns.length) {
    report(problem("row-length", row.span, { cells: row.cells.length, athletes: columns.length }));
    return;
  }
  const seconds = row.measure.within ? inBase(row.measure.within, ["time"], report) : null;
  if (row.measure.name === "in" && seconds === null) return;
  const last = row.cells.at(-1);
  const rowUnit = last?.kind === "unknown" || (last?.kind === "value" && !last.clock) ? last.unit : null;
  columns.forEach(({ text: name }, at) => {
    const cell = row.cells[at];
    const athlete = athletes.get(name);
    const value = cell && athlete ? cellValue(cell, rowUnit, row, report) : null;
    if (value === null || !athlete) return;
    const load = loadKg(row.load);
    const tested: Tested = { value, loadKg: load && load[athlete.category], on };
    const tests = testsOf(table, name, row.subject.text);
    if (row.measure.name !== "in") tests.measures.set(row.measure.name, tested);
    else if (seconds !== null) tests.timed.set(seconds, tested);
  });
}

function cellValue(
  cell: Cell,
  rowUnit: (Cell & { kind: "value" })["unit"],
  row: AbilityRowLine,
  report: (problem: Problem) => void,
): number | null {
  const wanted = dimensions[row.measure.name];
  if (cell.kind === "unknown") return null;
  if (cell.kind === "value") {
    const value = inBase({ ...cell, unit: cell.unit ?? rowUnit }, wanted, report);
    const most = largest[row.measure.name];
    if (value !== null && value > most) {
      report(problem("size-not-whole", cell.span, { size: value, least: 1, most }));
      return null;
    }
    if (value !== null && value >= 1 && row.measure.name === "unbroken" && !Number.isInteger(value)) {
      report(problem("size-not-whole", cell.span, { size: value, least: 1, most }));
      return Math.round(value);
    }
    // Less than half a rep rounds to none.
    if (value === null || value >= (row.measure.name === "unbroken" ? 0.5 : Number.MIN_VALUE) || row.measure.name === "fade") return value;
    report(problem("ability-zero", cell.span, { measure: row.measure.name }));
    return null;
  }
  const computed = compute(cell.of, (path, span) => ({
    ok: false,
    problem: problem("does-not-compute", span, { reason: "cell name", name: path.join(".") }),
  }));
  if (!computed.ok) {
    report(computed.problem);
    return null;
  }
  const { value, dimension } = computed.amount;
  const unit = dimension === "number" ? rowUnit : null;
  return unit === null ? value : inBase({ kind: "value", amount: value, unit, clock: false, span: cell.span }, wanted, report);
}

function testsOf(table: AbilityTable, athlete: string, subject: string): Tests {
  const known = table.get(athlete) ?? new Map<string, Tests>();
  table.set(athlete, known);
  const key = subjectKey(subject);
  const tests = known.get(key) ?? { name: subject, measures: new Map(), timed: new Map() };
  known.set(key, tests);
  return tests;
}
