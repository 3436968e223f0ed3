import { counted } from "../0-base/quantity.js";
import { cardCaution } from "./cautions.js";
import type { Card, CardPart, Wall } from "./cards.js";

/** A card as plain text, told with indents; as Markdown where heads and lists are marked. */
export function cardText(card: Card, markdown = false): string {
  const { athlete, plan, event, score, parts, cues, standards, remember } = card;
  const lines = (of: readonly CardPart[], depth: number): readonly string[] =>
    of.flatMap((part): readonly string[] => {
      const margin = "  ".repeat(depth);
      const bullet = markdown ? "- " : "";
      const words = part.cues.map((cue) => `${margin}  ${bullet}“${cue}”`);
      if (part.kind === "stage") {
        const checks = part.checks.length > 0 ? [`${margin}${bullet}team: ${part.checks.join(", ")}`] : [];
        return ["", `${markdown ? "### " : margin}${part.title}`, ...checks, ...words, ...lines(part.parts, depth)];
      }
      if (part.kind === "loop") return [`${margin}${bullet}${part.head}`, ...words, ...lines(part.parts, depth + 1)];
      const when = part.when === "" ? "" : `  ${part.when}`;
      return [`${margin}${bullet}${part.what}${when}${part.next === null ? "" : `  then ${part.next}`}`, ...words];
    });
  return (
    [
      `${markdown ? "## " : ""}${athlete}`,
      `${plan} for ${event}, ${score} on paper; ${counted(remember, "thing")} to remember`,
      ...lines(parts, 0),
      ...(cues.length > 0 ? ["", ...cues.map((cue) => `${markdown ? "- " : ""}“${cue}”`)] : []),
      ...(standards.length > 0
        ? ["", `${markdown ? "### " : ""}What counts`, ...standards.map((standard) => `${markdown ? "- " : ""}${standard}`)]
        : []),
      "",
      cardCaution,
    ].join("\n") + "\n"
  );
}

/** The sheet on the wall as a table of text; as Markdown with its marks. */
export function wallText({ plan, event, score, athletes, rows, cautions }: Wall, markdown = false): string {
  const heads = ["when", "who", ...athletes];
  const cells = rows.map(({ kind, when, words, cells: own }) => ({ kind, row: [when, words, ...own] }));
  const widths = heads.map((head, at) =>
    Math.max(head.length, ...cells.flatMap(({ kind, row }) => (kind === "turn" ? [row[at]?.length ?? 0] : []))),
  );
  const line = (row: readonly string[]): string =>
    markdown
      ? `| ${heads.map((_, at) => row[at] ?? "").join(" | ")} |`
      : row
          .map((cell, at) => cell.padEnd(widths[at] ?? 0))
          .join("  ")
          .trimEnd();
  return (
    [
      `${markdown ? "## " : ""}${plan} for ${event}, ${score} on paper`,
      "",
      line(heads),
      ...(markdown ? [line(heads.map(() => "---"))] : []),
      ...cells.map(({ kind, row }) => (kind === "turn" || markdown ? line(row) : `${row[0]?.padEnd(widths[0] ?? 0)}  ${row[1]}`)),
      "",
      cautions,
    ].join("\n") + "\n"
  );
}
