import { plain } from "../0-base/quantity.js";
import { printName } from "../3-plan/print-parts.js";
import { abilityText } from "./begun-text.js";

/** A number of an ability table as the logs would have it. */
export interface LearntRow {
  readonly athlete: string;
  /** As the table writes it. */
  readonly subject: string;
  readonly measure: string;
  readonly from: number;
  readonly to: number;
  readonly unit: "reps" | "s" | "";
  /** What, from → to, how sure, and why, to be read out. */
  readonly words: string;
}

/** Rows as an ability table to put into the notebook; what no row says is left open. */
export function learntTable(rows: readonly LearntRow[], date: string): string {
  const athletes = [...new Set(rows.map(({ athlete }) => athlete))];
  const lines = new Map<string, { readonly unit: string; readonly cells: Map<string, string> }>();
  for (const { athlete, subject, measure, to, unit } of rows) {
    const key = `${printName({ text: subject })}  ${measure}`;
    const line = lines.get(key) ?? { unit, cells: new Map() };
    line.cells.set(athlete, plain(to, 2));
    lines.set(key, line);
  }
  return abilityText(
    `ability on ${date}`,
    athletes,
    [...lines].map(([label, { unit, cells }]) => ({ label, cells: athletes.map((athlete) => cells.get(athlete) ?? "-"), unit })),
  );
}
