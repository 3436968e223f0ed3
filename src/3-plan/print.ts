import { clock, plain } from "../0-base/quantity.js";
import type { BrokenSet, Cell, Clauses, Expression, Hours, Line, Load, Measure, RestSize, Size, Value, WhileClause, Word } from "./ast.js";

/** AST → text: one block, two spaces an indent, one space between words; tables in columns. No comments: see format.ts. */
export function print(line: Line): string {
  return printedLines(line).map(({ depth, text }) => `${"  ".repeat(depth)}${text}\n`).join("");
}

export interface PrintedLine {
  readonly line: Line;
  readonly depth: number;
  readonly text: string;
}

/** Every line of a block with its depth and its text, in order; a broken line's text is empty. */
export function printedLines(line: Line, depth = 0): readonly PrintedLine[] {
  if (line.kind === "ability") return printedTable(line, depth);
  return [{ line, depth, text: printLine(line) }, ...line.body.flatMap((inner) => printedLines(inner, depth + 1))];
}

/** A line by itself with every name in quotes: for names that would be read as something else. */
export function printQuoted(line: Line): string {
  return printLine(line, quoted);
}

/** A word of a name that is a keyword somewhere, or a mark; a name with one stands in quotes where it would be read as something else. */
const keywordIn =
  /(^|\s)(on|like|at|for|of|until|rounds?|rest|plan|again|done|broke|dropped|holds?|no-rep|unbroken|cycle|in|max|recovery|fade|each|together|shared|as|while)(\s|$)|\s(woman|women|man|men)(\s|$)/u;
const markIn = /[\u0021-\u0026\u0028-\u002c\u002e\u002f\u003a-\u0040\u005b-\u005e\u0060\u007b-\u007f]|(^|\s)[\p{N}-]|-(\s|$)/u;

/** How names are written: plain, or all in quotes. */
type Quoting = (name: Pick<Word, "text">) => string;

/** A name, in double quotes where it holds a keyword or a mark. */
export const printName: Quoting = ({ text }) => (keywordIn.test(text) || markIn.test(text) ? `"${text}"` : text);

const quoted: Quoting = ({ text }) => `"${text}"`;

export function printValue(value: Value): string {
  if (value.typed) return `${printExpression(value.typed)}${value.unit === null ? "" : ` ${value.unit === "rep" ? "reps" : value.unit}`}`;
  if (value.clock) return clock(value.amount);
  const amount = plain(value.amount, 10);
  if (value.unit === null) return amount;
  return `${amount} ${value.unit === "rep" ? "reps" : value.unit}`;
}

export function printExpression(expression: Expression): string {
  switch (expression.kind) {
    case "value": return printValue(expression);
    case "measured": return `${plain(expression.amount, 10)} ${expression.unit.text}`;
    case "reference": return expression.path.join(".");
    case "negative": return `-${printExpression(expression.of)}`;
    case "paren": return `(${printExpression(expression.of)})`;
    case "convert": return `${printExpression(expression.of)} to ${expression.unit.text}`;
    case "call": return `${expression.name.text}(${expression.inputs.map(printExpression).join(", ")})`;
    case "binary": return `${printExpression(expression.left)} ${expression.operator} ${printExpression(expression.right)}`;
  }
}

function printLoad(load: Load | null): string {
  if (!load) return "";
  const both = load.man === load.woman ? plain(load.man, 10) : `${plain(load.man, 10)}/${plain(load.woman, 10)}`;
  return `@ ${both} ${load.unit}`;
}

function printSize(size: Size): string {
  switch (size.kind) {
    case "number": return printValue(size.value);
    case "expression": return printExpression(size.of);
    case "percent": return `${plain(size.fraction * 100, 10)} % unbroken`;
    case "ladder": return size.steps.join("-") + (size.again ? " again" : "");
  }
}

function printBroken(broken: BrokenSet | null): string {
  if (!broken) return "";
  return `as ${broken.parts.join("+")}${broken.rest ? ` rest ${printValue(broken.rest)}` : ""}`;
}

function printWhile(clause: WhileClause | null, q: Quoting): string {
  if (!clause) return "";
  const who = clause.count ?? clause.who.map(q).join(" + ");
  return joined("while", who, "hold", clause.hold && q(clause.hold), printLoad(clause.load));
}

function printClauses(clauses: Clauses, q: Quoting): string {
  return joined(printLoad(clauses.load), clauses.how, printBroken(clauses.broken), printWhile(clauses.hold, q));
}

function printRest(rest: RestSize): string {
  if (rest.kind === "ready") return "until ready";
  if (rest.kind === "ratio") return `${rest.work}:${rest.rest}`;
  return rest.kind === "time" ? printValue(rest.value) : `until ${plain(rest.fraction * 100, 10)} %`;
}

function printMeasure(measure: Measure): string {
  return joined(measure.name, measure.within && printValue(measure.within));
}

function printWho(who: readonly Word[], q: Quoting): string {
  return who.map(q).join(" + ");
}

function printHours({ from, to }: Hours): string {
  return `${from}–${to}`;
}

/** The parts that are there, one space between them. */
function joined(...parts: readonly (string | number | null)[]): string {
  return parts.filter((part) => part !== null && part !== "").join(" ");
}

function named(name: Word | null, q: Quoting): string {
  return name ? q(name) : "";
}

export function printLine(line: Line, q: Quoting = printName): string {
  switch (line.kind) {
    case "team": case "movement": case "hold": case "week": return joined(line.kind, q(line.name));
    case "athlete": return joined(q(line.name), line.category);
    case "asks": return `asks ${line.asks.map(({ part, share }) => `${part.text} ${printValue(share)}`).join(", ")}`;
    case "ability": return joined("ability", line.on && `on ${line.on}`, ...line.athletes.map(q));
    case "ability row": return joined(q(line.subject), printMeasure(line.measure), printLoad(line.load), ...line.cells.map(printCell));
    case "event": return joined("event", q(line.name), line.like && `like ${q(line.like)}`);
    case "score": case "pairs": return joined(line.kind, line.choice.text);
    case "cap": case "handover": case "setup": return joined(line.kind, printValue(line.value));
    case "working": return joined("working at most", line.most, line.what && line.what.text);
    case "stage": {
      const alone = line.name && line.movement && !line.count;
      const name = alone ? `"${line.name.text}"` : named(line.name, q);
      return joined("stage", name, line.count && printValue(line.count), named(line.movement, q), printClauses(line.clauses, q));
    }
    case "window": return line.lasts ? joined("window", printValue(line.lasts), "for", line.who.text) : joined("window", line.who.text);
    case "station": return joined("station", q(line.name), "for", line.who.text);
    case "round": return joined("round", line.of !== null && `of ${line.of}` || null);
    case "round item": return joined(line.count && printValue(line.count), q(line.movement), printClauses(line.clauses, q));
    case "rule": return joined("rule", ...line.parts.map((part) => ("kind" in part ? printValue(part) : part.text)));
    case "standard": return joined("standard", line.text);
    case "plan": return joined("plan", q(line.name), "for", q(line.event));
    case "pair": return `pair ${q(line.name)}  ${printWho(line.athletes, q)}`;
    case "repeat": return joined("repeat", line.times, line.until && `until ${printValue(line.until)}`) + (line.whenReady ? ", each when ready" : "");
    case "lane": return joined("lane", q(line.name), line.station && `on ${q(line.station)}`);
    case "rest": return joined("rest", printRest(line.rest));
    case "turn": return joined(printWho(line.who, q), printSize(line.size), named(line.movement, q), printClauses(line.clauses, q));
    case "round turn": return joined(printWho(line.who, q), line.count === 1 ? "round" : `${line.count} rounds`, printClauses(line.clauses, q)) + line.items.map(({ movement, broken }) => `, ${joined(q(movement), printBroken(broken))}`).join("");
    case "named rest": return joined(printWho(line.who, q), "rest", printRest(line.rest));
    case "zone": return joined("zone", line.zone);
    case "due": return joined("due", line.date, line.time, line.zone);
    case "day limit": return joined("at most", line.most, line.what.text);
    case "cue": return joined("cue", line.when && `${line.when.of} ${printValue(line.when.value)}`, line.text);
    case "gap": return joined("at least", printValue(line.least), line.what.text);
    case "keep": return joined("keep", printValue(line.value), line.what.text);
    case "open": return joined("open", line.date, printHours(line.hours));
    case "away": return joined(printWho(line.who, q), "away", line.date, line.until && `until ${line.until}`, line.hours && printHours(line.hours));
    case "day": {
      const try_ = joined(line.plan && `plan ${q(line.plan)}`, line.again ? "again" : "");
      const said = joined(line.effort === null ? "" : `effort ${line.effort}`, line.weight === null ? "" : `weight ${line.weight}`);
      return joined(line.date, line.time, line.rest ? "rest" : named(line.event, q), try_, said);
    }
    case "log": return joined("log", q(line.plan), "on", line.date, line.time);
    case "log done": return joined(q(line.stage), "done", printValue(line.at));
    case "log broke": return joined(q(line.athlete), "broke at", line.at, named(line.movement, q));
    case "log dropped": return joined(q(line.athlete), "dropped the hold at", printValue(line.at));
    case "log no-rep": return joined(q(line.athlete), "no-rep", line.count);
    case "log finish": return joined("finish", printValue(line.at));
    case "log reps": return joined("reps at", printValue(line.at), line.reps);
    case "log handover": return joined("handover about", printValue(line.value));
    case "log felt": return joined("felt", line.effort);
    case "log note": return joined("note", line.text);
    case "let": return joined("let", q(line.name), "=", printExpression(line.value));
    case "expect": return joined("expect", printExpression(line.left), line.comparison, printExpression(line.right));
    case "compare": return joined("compare", line.plans.map(q).join(", "));
    case "use": return `use "${line.path}"`;
    case "assume": return joined("assume", q(line.name), printValue(line.value));
    case "broken": return "";
  }
}

function printCell(cell: Cell): string {
  if (cell.kind === "unknown") return "-";
  return cell.kind === "paren" ? printExpression(cell.of) : printValue(cell);
}

/** An ability table in columns: subjects and measures to the left, values right under their athlete's name. */
function printedTable(table: Extract<Line, { kind: "ability" }>, depth: number): readonly PrintedLine[] {
  const rows = table.body.map((line) =>
    line.kind === "ability row"
      ? { line, head: [printName(line.subject), joined(printMeasure(line.measure), printLoad(line.load))], cells: cellTexts(line.cells) }
      : { line, head: [printLine(line)], cells: null },
  );
  const full = rows.filter((row) => row.cells !== null);
  const width = (at: number) => Math.max(0, ...full.map(({ head }) => head[at]?.length ?? 0));
  const [subjects, measures] = [width(0), width(1)];
  const left = 2 + subjects + 2 + measures;
  const head = joined("ability", table.on && `on ${table.on}`);
  const names = table.athletes.map(printName);
  const column = (at: number) => Math.max(names[at]?.length ?? 0, ...full.map(({ cells }) => cells?.values[at]?.length ?? 0));
  const offset = Math.max(left, head.length);
  const title = head.padEnd(offset) + names.map((name, at) => `  ${name.padStart(column(at))}`).join("");
  const body = rows.flatMap(({ line, head: words, cells }): readonly PrintedLine[] => {
    const inner = line.body.flatMap((child) => printedLines(child, depth + 2));
    if (!cells) return [{ line, depth: depth + 1, text: words[0] ?? "" }, ...inner];
    const start = `${(words[0] ?? "").padEnd(subjects)}  ${words[1] ?? ""}`.padEnd(offset - 2);
    const text = start + cells.values.map((cell, at) => `  ${cell.padStart(column(at))}`).join("") + (cells.unit ? `  ${cells.unit}` : "");
    return [{ line, depth: depth + 1, text }, ...inner];
  });
  return [{ line: table, depth, text: title.trimEnd() }, ...body];
}

/** The cells of a row; the last cell's unit stands at the end of the row when no cell before it has one. */
function cellTexts(cells: readonly Cell[]): { readonly values: readonly string[]; readonly unit: string | null } {
  const last = cells.at(-1);
  const carries = last?.kind === "unknown" || (last?.kind === "value" && !last.clock);
  const shared = carries && cells.slice(0, -1).every((cell) => cell.kind === "paren" || cell.unit === null || (cell.kind === "value" && cell.clock));
  if (!shared || last.unit === null) return { values: cells.map(printCell), unit: null };
  const bare = { ...last, unit: null };
  return { values: [...cells.slice(0, -1), bare].map(printCell), unit: last.unit === "rep" ? "reps" : last.unit };
}
