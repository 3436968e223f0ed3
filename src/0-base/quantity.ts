/** Pounds to kilograms, exact: the international pound of 1959. */
export const kgPerLb = 0.45359237;

export type Unit = "s" | "min" | "h" | "kg" | "lb" | "rep" | "cal" | "m" | "%";
export type Dimension = "time" | "load" | "count" | "length" | "share";

/** What a unit measures and how many base units (s, kg, rep, m, 1) it is. */
export const units: Readonly<Record<Unit, { readonly dimension: Dimension; readonly base: number }>> = {
  s: { dimension: "time", base: 1 },
  min: { dimension: "time", base: 60 },
  h: { dimension: "time", base: 3600 },
  kg: { dimension: "load", base: 1 },
  lb: { dimension: "load", base: kgPerLb },
  rep: { dimension: "count", base: 1 },
  cal: { dimension: "count", base: 1 },
  m: { dimension: "length", base: 1 },
  "%": { dimension: "share", base: 0.01 },
};

/** A number as typed, with its unit as typed; `unit` null where none stands. */
export interface Quantity {
  readonly amount: number;
  readonly unit: Unit | null;
}

/** In base units: s, kg, rep, m; a share as a fraction. */
export function toBase(quantity: Quantity): number {
  return quantity.unit === null ? quantity.amount : quantity.amount * units[quantity.unit].base;
}

/** Seconds of `2:30` (minutes:seconds) or `1:02:30`; NaN for anything else. */
export function secondsOf(clock: string): number {
  const parts = clock.split(":").map(Number);
  return parts.length < 2 || parts.length > 3 ? Number.NaN : parts.reduce((sum, part) => sum * 60 + part, 0);
}

/** `14:21`, `1:02:30`; whole seconds, halves up. */
export function clock(seconds: number): string {
  const whole = Math.round(Math.abs(seconds));
  const h = Math.floor(whole / 3600);
  const m = Math.floor(whole / 60) % 60;
  const s = String(whole % 60).padStart(2, "0");
  const sign = seconds < 0 && whole > 0 ? "−" : "";
  return h > 0 ? `${sign}${h}:${String(m).padStart(2, "0")}:${s}` : `${sign}${m}:${s}`;
}

/** At most `digits` decimals, no trailing zeros. */
export function plain(value: number, digits = 1): string {
  if (Math.abs(value) >= 1e21) return BigInt(Math.round(value)).toString();
  const fixed = value.toFixed(digits);
  const short = fixed.includes(".") ? fixed.replace(/\.?0+$/, "") : fixed;
  return short === "-0" ? "0" : short;
}

/** A fraction as `38 %`; to so many decimals. */
export function percent(fraction: number, digits = 0): string {
  return `${digits === 0 ? Math.round(fraction * 100) : plain(fraction * 100, digits)} %`;
}

/** `1 rep`, `14 reps`; `1 woman`, `2 women` where the plural is given. */
export function counted(amount: number, noun: string, plural = `${noun}s`): string {
  return `${plain(amount)} ${amount === 1 ? noun : plural}`;
}

/** Decimals beyond which nobody looks. */
const mostDigits = 6;

/** Two values as text, with as few decimals as tell them apart: nobody reads that 60 s are more than the 60 s allowed. */
export function toldApart(a: number, b: number, show: (value: number, digits: number) => string, digits = 1): readonly [string, string] {
  const [one, other] = [show(a, digits), show(b, digits)];
  return one !== other || a === b || digits >= mostDigits ? [one, other] : toldApart(a, b, show, digits + 1);
}

/** The numbers from 1 in words, as far as they are said so. */
export const numberWords = Object.freeze(["one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten"]);

/** `three`; beyond ten in digits. */
export function numberWord(count: number): string {
  return numberWords[count - 1] ?? `${count}`;
}
