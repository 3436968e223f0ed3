/** The columns that answers stand in, by what they are about, in order. */
export const columns = {
  plan: ["from", "to", "done", "left", "least", "chance", "passes"],
  week: ["score", "fresh", "limit", "back", "load"],
} as const;
export type Table = keyof typeof columns;
export type Column = (typeof columns)[Table][number];

/** What each head says where there is room for it. */
export const headHelp: Readonly<Record<Column, string>> = {
  from: "when it first begins",
  to: "when that first passage ends",
  done: "reps of the target by then",
  left: "reserve of the most tired after the first passage",
  least: "the least reserve that any passage leaves",
  chance: "days on which it misses or drops the hold, the likelier of the two",
  passes: "how often the line comes",
  score: "with what the days before have left",
  fresh: "the same days with a fresh team",
  limit: "the part of the body that is least back",
  back: "how much of it is back",
  load: "effort × minutes",
};

/** One field of a row. `bar`: a fraction, drawn. `shares`: parts of a whole, drawn side by side, each with its number. */
export interface Field {
  readonly column: Column;
  /** The last column it fills, where that is another. */
  readonly through?: Column;
  readonly text: string;
  readonly bar?: number;
  readonly shares?: readonly { readonly name: string; readonly value: number }[];
  /** Where a plan is worst: the least left, or the likeliest to fail. */
  readonly worst?: boolean;
}

/** An answer as fields under the heads of its table. */
export interface Row {
  readonly table: Table;
  readonly cells: readonly Field[];
}

/** The few fields that matter most where there is no room for more: when, how far, and what may go wrong. */
export function brief({ table, cells }: Row): string {
  const text = (column: Column): string | undefined => cells.find((cell) => cell.column === column)?.text;
  if (table === "week") return [text("score"), text("limit") && `${text("limit")} ${text("back")}`].filter(Boolean).join(" · ");
  const when = [text("from"), text("to")].filter(Boolean).join("–");
  const shares = cells.find((cell) => cell.shares)?.text;
  const risk = text("chance") ?? (text("least") && `least ${text("least")}`) ?? (text("left") && `${text("left")} left`);
  return [when, text("done"), shares ?? risk ?? text("passes")].filter(Boolean).join(" · ");
}

/** A row's fields in the order of its table, empty ones too: a row of a spreadsheet. */
export function fieldsOf({ table, cells }: Row): readonly string[] {
  return columns[table].map((column) => {
    const cell = cells.find((one) => one.column === column);
    return cell?.shares ? cell.shares.map(({ name, value }) => `${name} ${value}`).join(" ") : (cell?.text ?? "");
  });
}

/** Lines with what stands beside them as tab-separated text, under one line of heads for each table that is met. */
export function tabbed(lines: readonly { readonly text: string; readonly shown: string; readonly row: Row | null }[]): string {
  let table: Table | null = null;
  const rows = lines.flatMap(({ text, shown, row }): readonly (readonly string[])[] => {
    const head = row && row.table !== table ? [["", ...columns[row.table]]] : [];
    table = row?.table ?? table;
    return [...head, [text.replaceAll("\t", "  "), ...(row ? fieldsOf(row) : shown === "" ? [] : [shown])]];
  });
  return tabSeparated(rows);
}

export function tabSeparated(rows: readonly (readonly string[])[]): string {
  return rows.map((fields) => fields.join("\t")).join("\n");
}
