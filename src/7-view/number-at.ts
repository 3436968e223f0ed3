/** A number of a line that can be tried: where it stands in the line, what it is, and the neighbours worth a look, itself among them. */
export interface TriedNumber {
  readonly from: number;
  readonly to: number;
  readonly value: number;
  readonly unit: "" | "%" | "s";
  readonly values: readonly number[];
}

/** Neighbours that are looked at on each side. */
const reach = 8;
/** A rest is looked at from nothing to so many seconds at least. */
const longRestS = 30;

/** The number at a column of a plan's line, whole and bare; null where there is none: in a name, a comment, a time of day, a date. */
export function numberAt(line: string, column: number): TriedNumber | null {
  const comment = line.indexOf("//");
  if (/^\s*[#>]/.test(line) || (comment >= 0 && column > comment)) return null;
  for (const found of line.matchAll(/(?<![\p{L}\p{N}.:"/])\d+(?![\p{L}\p{N}:"]|[.,]\d)/gu)) {
    const [from, to] = [found.index, found.index + found[0].length];
    if (column < from || column > to) continue;
    // A date is no number, and a name in quotes has none.
    if (
      [...line.matchAll(/\d{4}-\d\d-\d\d/g)].some(({ index }) => from >= index && to <= index + 10) ||
      (line.slice(0, from).split('"').length - 1) % 2 === 1
    )
      return null;
    const value = Number(found[0]);
    const unit = /^\s*%/.test(line.slice(to)) ? "%" : /^\s*s(?![\p{L}])/u.test(line.slice(to)) ? "s" : "";
    return { from, to, value, unit, values: neighbours(value, unit) };
  }
  return null;
}

function neighbours(value: number, unit: TriedNumber["unit"]): readonly number[] {
  const [least, most, step] =
    unit === "%"
      ? [1, 100, 2]
      : unit === "s"
        ? [0, Math.max(longRestS, 2 * value), Math.max(1, Math.round(Math.max(longRestS, 2 * value) / (2 * reach)))]
        : [1, Math.max(12, value + reach), 1];
  const around = Array.from({ length: 2 * reach + 1 }, (_, at) => value + (at - reach) * step).filter((one) => one >= least && one <= most);
  return [...new Set([...(around[0] !== undefined && around[0] > least && unit !== "%" ? [least] : []), ...around])];
}
