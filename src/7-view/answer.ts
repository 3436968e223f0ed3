import type { Origin } from "../4-timeline/ability.js";
import type { Row } from "./columns.js";

/** A number an answer was made from, and where it comes from. */
export interface Input {
  readonly name: string;
  readonly value: string;
  readonly origin: Origin;
}

/** What an answer is about, so that a reader can choose which to see. */
export const abouts = ["plans", "stages", "turns", "rests", "abilities", "formulas"] as const;
export type About = (typeof abouts)[number];

/** What stands beside one line: the words, the numbers, and how they came about. Plain data. */
export interface Answer {
  /** Line within its block, from 0. */
  readonly line: number;
  readonly about: About;
  readonly shown: string;
  /** The same as fields of a table, where it is one of many alike. */
  readonly row?: Row;
  /** In base units: s, reps, kg, fractions. */
  readonly values: Readonly<Record<string, number>>;
  readonly origin: Origin;
  /** The formula in words. */
  readonly formula: string;
  readonly inputs: readonly Input[];
}

/** How an answer came about, part by part: the formula, who computed it, what went in and where that comes from. */
export interface Explanation {
  readonly shown: string;
  readonly formula: string;
  readonly by: string;
  /** What went in, gathered under what it is a measure of: `Ines, ring dip` with all that is known of it. */
  readonly inputs: readonly { readonly name: string; readonly values: readonly { readonly value: string; readonly from: string }[] }[];
}

export function explain({ shown, formula, inputs, origin }: Answer): Explanation {
  const by = `${origin.kind === "computed" ? "Computed by" : origin.kind === "assumed" ? "Assumed:" : "From"} ${origin.by}`;
  const gathered = new Map<string, { value: string; from: string }[]>();
  for (const { name, value, origin: from } of inputs) {
    const [of = name, measure] = name.split(": ");
    // Whose model it is stands above already.
    const said = from.by === origin.by ? "" : from.kind === from.by.split(",")[0] ? from.by : `${from.kind}, ${from.by}`;
    gathered.set(of, [...(gathered.get(of) ?? []), { value: measure === undefined ? value : `${measure} ${value}`, from: said }]);
  }
  return { shown, formula, by, inputs: [...gathered].map(([name, values]) => ({ name, values })) };
}

/** The same in a sentence, to be read out. */
export function sentenceOf({ shown, formula, by, inputs }: Explanation): string {
  const used = inputs
    .map(({ name, values }) => `${name}: ${values.map(({ value, from }) => (from === "" ? value : `${value} (${from})`)).join(", ")}`)
    .join("; ");
  return `${shown}. ${formula}. ${by}.${used ? ` ${used}.` : ""}`;
}

/** Whether a number in an answer is assumed where the coach could have tested it; every model's own constants are not meant. */
export function assumes({ inputs, origin }: Answer): boolean {
  return (
    origin.kind === "assumed" ||
    inputs.some(({ origin: from }) => from.kind === "assumed" && !from.by.startsWith("recovery") && from.by !== "fade")
  );
}

/** Joins the parts of an answer that are there. */
export function shownAs(...parts: readonly (string | null)[]): string {
  return parts.filter((part) => part !== null && part !== "").join(" · ");
}

/** An answer with more to say than its fields hold: it stands as words then. */
export function withWords(answer: Answer, more: string | undefined): Answer {
  if (more === undefined) return answer;
  const { row: _, ...rest } = answer;
  return { ...rest, shown: shownAs(answer.shown, more) };
}

export const computedBy = (by: string): Origin => ({ kind: "computed", by });
