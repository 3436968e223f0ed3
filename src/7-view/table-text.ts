import Papa from "papaparse";

/** Text of a spreadsheet → rows: between tabs where there are any, else as its separators look. */
export function tableRowsOf(text: string): readonly (readonly string[])[] {
  return Papa.parse<string[]>(text.trimEnd(), text.includes("\t") ? { delimiter: "\t" } : {}).data;
}

/** Rows → comma-separated text (RFC 4180). A cell that a spreadsheet would take for a formula stands behind an apostrophe. */
export function csvOf(rows: readonly (readonly string[])[]): string {
  return `${Papa.unparse(
    rows.map((row) => [...row]),
    { escapeFormulae: /^[=+@\t\r]|^-[^\d]/ },
  )}\r\n`;
}
