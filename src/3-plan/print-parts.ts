/** The parts of lines as text. */
import { keywords } from "../../grammar/tokens.js";
import { clock, plain } from "../0-base/quantity.js";
import type {
  BrokenSet,
  Cell,
  HandChange,
  Clauses,
  Expression,
  Hours,
  Load,
  Measure,
  RestSize,
  Size,
  Value,
  WhileClause,
  Word,
} from "./parts.js";

/** Keywords that stand only behind others, where no name can. */
const neverWithName: ReadonlySet<string> = new Set([
  "The",
  "Most",
  "Least",
  "When",
  "About",
  "Ready",
  "Sync",
  "AwayWord",
  "EffortWord",
  "WeightWord",
  "EveryWord",
  "Will",
  "Costs",
  "TimeWord",
]);
/** Keywords only behind a name: one that begins with them is read as it stands. */
const behindName: ReadonlySet<string> = new Set(["Woman", "Man"]);

function spellings(fits: (token: string) => boolean): string {
  return keywords.flatMap(([token, ...words]) => (fits(token) ? words : [])).join("|");
}

/** A word of a name that is a keyword somewhere, or a mark; a name with one stands in quotes where it would be read as something else. */
const keywordIn = new RegExp(
  String.raw`(^|\s)(${spellings((token) => !neverWithName.has(token) && !behindName.has(token))})(\s|$)|\s(${spellings((token) => behindName.has(token))})(\s|$)`,
  "u",
);
const markIn = /[^\p{L}\p{M}\p{N}\s'_-]|(^|\s)[\p{N}-]|-(\s|$)/u;

/** How names are written: plain, or all in quotes. */
export type Quoting = (name: Pick<Word, "text">) => string;

/** A name, in double quotes where it holds a keyword or a mark. */
export const printName: Quoting = ({ text }) => (keywordIn.test(text) || markIn.test(text) ? `"${text}"` : text);

/** A word where keywords stand too: in double quotes only where it holds a mark. */
export const printWord: Quoting = ({ text }) => (markIn.test(text) ? `"${text}"` : text);

export const quoted: Quoting = ({ text }) => `"${text}"`;

export function printValue(value: Value): string {
  if (value.typed) return `${printExpression(value.typed)}${value.unit === null ? "" : ` ${value.unit === "rep" ? "reps" : value.unit}`}`;
  if (value.clock) return clock(value.amount);
  const amount = plain(value.amount, 10);
  if (value.unit === null) return amount;
  return `${amount} ${value.unit === "rep" ? "reps" : value.unit}`;
}

export function printExpression(expression: Expression): string {
  switch (expression.kind) {
    case "value":
      return printValue(expression);
    case "measured":
      return `${plain(expression.amount, 10)} ${expression.unit.text}`;
    case "reference":
      return expression.path.join(".");
    case "negative":
      return `-${printExpression(expression.of)}`;
    case "paren":
      return `(${printExpression(expression.of)})`;
    case "convert":
      return `${printExpression(expression.of)} to ${expression.unit.text}`;
    case "call":
      return `${expression.name.text}(${expression.inputs.map(printExpression).join(", ")})`;
    case "binary":
      return `${printExpression(expression.left)} ${expression.operator} ${printExpression(expression.right)}`;
  }
}

export function printLoad(load: Load | null): string {
  if (!load) return "";
  const both = load.man === load.woman ? plain(load.man, 10) : `${plain(load.man, 10)}/${plain(load.woman, 10)}`;
  return `@ ${both} ${load.unit}`;
}

export function printSize(size: Size): string {
  switch (size.kind) {
    case "number":
      return printValue(size.value);
    case "expression":
      return printExpression(size.of);
    case "percent":
      return `${plain(size.fraction * 100, 10)} % unbroken`;
    case "ladder":
      return size.steps.map((step) => plain(step, 10)).join("-") + (size.ofBest ? " % unbroken" : "") + (size.again ? " again" : "");
  }
}

export function printBroken(broken: BrokenSet | null): string {
  if (!broken) return "";
  return `as ${broken.parts.join("+")}${broken.rest ? ` rest ${printValue(broken.rest)}` : ""}`;
}

function printWhile(clause: WhileClause | null, q: Quoting): string {
  if (!clause) return "";
  const who = clause.count ?? clause.who.map(q).join(" + ");
  return joined("while", who, "hold", clause.hold && q(clause.hold), printLoad(clause.load));
}

export function printClauses(clauses: Clauses, q: Quoting): string {
  return joined(printLoad(clauses.load), clauses.how, printBroken(clauses.broken), printWhile(clauses.hold, q));
}

export function printRest(rest: RestSize): string {
  if (rest.kind === "ready") return "until ready";
  if (rest.kind === "ratio") return `${rest.work}:${rest.rest}`;
  return rest.kind === "time" ? printValue(rest.value) : `until ${plain(rest.fraction * 100, 10)} %`;
}

export function printMeasure(measure: Measure): string {
  return joined(measure.name, measure.within && printValue(measure.within));
}

export function printWho(who: readonly Word[], q: Quoting): string {
  return who.map(q).join(" + ");
}

export function printHours({ from, to }: Hours): string {
  return `${from}–${to}`;
}

/** The parts that are there, one space between them. */
export function joined(...parts: readonly (string | number | null)[]): string {
  return parts.filter((part) => part !== null && part !== "").join(" ");
}

export function named(name: Word | null, q: Quoting): string {
  return name ? q(name) : "";
}

export function printCell(cell: Cell): string {
  if (cell.kind === "unknown") return "-";
  return cell.kind === "paren" ? printExpression(cell.of) : printValue(cell);
}

export function printChange(change: HandChange | null): string {
  if (!change) return "";
  return change.kind === "every" ? joined("every", printValue(change.reps)) : "at will";
}
