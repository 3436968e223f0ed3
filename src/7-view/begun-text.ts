import { printName } from "../3-plan/print-parts.js";
import type { EventKind } from "./event-kinds.js";

/** An event of a kind, as text without its last line end. */
export function eventText({ lines }: EventKind, name: string): string {
  return [`event ${printName({ text: name })}`, ...lines.map((line) => `  ${line}`)].join("\n");
}

/** A team as text, women first. */
export function teamText(name: string, women: readonly string[], men: readonly string[]): string {
  const wide = Math.max(0, ...[...women, ...men].map((athlete) => athlete.length)) + 2;
  const row =
    (category: string) =>
    (athlete: string): string =>
      `  ${athlete.padEnd(wide)}${category}`;
  return `${[`team ${printName({ text: name })}`, ...women.map(row("woman")), ...men.map(row("man"))].join("\n")}\n`;
}

/** A table of abilities as text: columns as wide as their names; `head` is what stands before them. */
export function abilityText(
  head: string,
  athletes: readonly string[],
  rows: readonly { readonly label: string; readonly cells: readonly string[]; readonly unit: string }[],
): string {
  const wide = Math.max(head.length, ...rows.map(({ label }) => label.length + 2));
  const cell = (text: string, at: number): string => text.padStart(Math.max(4, athletes[at]?.length ?? 0) + 2);
  const body = rows.map(({ label, cells, unit }) => `${`  ${label}`.padEnd(wide)}${cells.map(cell).join("")}  ${unit}`.trimEnd());
  return `${[`${head.padEnd(wide)}${athletes.map(cell).join("")}`, ...body].join("\n")}\n`;
}
