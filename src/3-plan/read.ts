import type { SyntaxNode } from "@lezer/common";
import { type Problem, problem } from "../0-base/problem.js";
import type { Span } from "../0-base/span.js";
import { unitSpellings } from "../../grammar/tokens.js";
import { secondsOf } from "../0-base/quantity.js";
import { applyEdits } from "../1-text/edits.js";
import { type Block, blocksOf } from "../2-tree/blocks.js";
import { expectationAt } from "../2-tree/expected.js";
import { longestLine, parse } from "../2-tree/parse.js";
import type { Cell, Comparison, Hours, Line, MeasureName, Value } from "./ast.js";
import { compute } from "./formula.js";
import { type Intended, intendedBy } from "./intended.js";
import { misplacedLines } from "./placement.js";
import { readBrokenItems, readClauses, readLoad, readRest, readSize } from "./read-clauses.js";
import { childExpressions, readExpression } from "./read-expression.js";
import { Reader } from "./reader.js";

/** A block of text as typed lines, and what could not be read. */
export interface ReadBlock {
  readonly line: Line;
  readonly problems: readonly Problem[];
}

/** tree → AST, one block. A line that cannot be read becomes a `broken` line with one problem; its body is read all the same. */
export function readBlock(block: Block): ReadBlock {
  const problems: Problem[] = [];
  const reader = new Reader(block.text, block.from, (found) => void problems.push(found));
  const readItem = (item: SyntaxNode, under: Line["kind"] | null): Line => {
    const node = contentOf(item);
    const span = lineSpan(item, node, reader);
    const body: Line[] = [];
    const tooLong = span.to - span.from > longestLine;
    const broken = firstBreak(item);
    const bare = broken || tooLong ? null : node && readLine(node, reader);
    for (const inner of item.getChildren("Body")) for (const child of itemsOf(inner)) body.push(readItem(child, bare?.kind ?? headedBy(node) ?? under));
    const meant = tooLong ? [] : intendedBy(block.text.slice(span.from, span.to), under, block.text);
    if (bare && (meant.length === 0 || bare.kind === "standard")) return { ...bare, span, body };
    problems.push(meant.length > 0 ? saidOtherwise(span, meant, reader) : problemOf(span, broken, reader));
    return { kind: "broken", span, body };
  };
  const line = readItem(block.node, null);
  const all = [...problems, ...misplacedLines(line, block.text)];
  return { line, problems: all.some(isGuess) ? all.map((found) => (isGuess(found) ? tried(found, block.text, all.length) : found)) : all };
}

function isGuess({ rule, fixes }: Problem): boolean {
  return rule === "does-not-parse" && fixes.length > 0;
}

/** A near word is offered only where the block reads better with it. */
function tried(found: Problem, text: string, before: number): Problem {
  const fixes = found.fixes.filter(({ edits }) => {
    const changed = applyEdits(text, edits);
    const [block, another] = blocksOf(changed, parse(changed).tree);
    return block !== undefined && !another && readBlock(block).problems.length < before;
  });
  return { ...found, fixes };
}

/** What a line that cannot be read heads all the same, as far as its first word tells. */
function headedBy(node: SyntaxNode | null): Line["kind"] | null {
  const heads: Readonly<Record<string, Line["kind"]>> = { PlanHead: "plan", EventHead: "event", Stage: "stage", Repeat: "repeat", Lane: "lane", Window: "window" };
  return (node && heads[node.name]) ?? null;
}

/** A line in words that the language does not have, and what it was meant to be; inner lines keep the line's indentation. */
function saidOtherwise(span: Span, meant: readonly Intended[], reader: Reader): Problem {
  const start = reader.text.lastIndexOf("\n", span.from - 1) + 1;
  const margin = /^[ \t]*/.exec(reader.text.slice(start))?.[0] ?? "";
  const fixes = meant.map(({ title, lines }) => ({ title, edits: [{ span, text: lines.join(`\n${margin}`) }] }));
  return problem("said-otherwise", span, { typed: reader.text.slice(span.from, span.to), meant: meant.map(({ lines }) => lines.map((line) => line.trim()).join(" / ")) }, fixes);
}

/** Any line without what every line has. */
type Bare<L = Line> = L extends Line ? Omit<L, "span" | "body"> : never;

function contentOf(item: SyntaxNode): SyntaxNode | null {
  for (let child = item.firstChild; child; child = child.nextSibling) {
    if (!["Body", "Comment", "Heading", "Note", "Junk"].includes(child.name)) return child;
  }
  return null;
}

/** All items of a body, those of a second, deeper indent among them. */
function itemsOf(body: SyntaxNode): readonly SyntaxNode[] {
  return body.getChildren("Item");
}

/** Where the line's own text (not its body's) is Junk, Missing or an error; null where it is whole. */
function firstBreak(item: SyntaxNode): SyntaxNode | null {
  const search = (node: SyntaxNode): SyntaxNode | null => {
    for (let child = node.firstChild; child; child = child.nextSibling) {
      if (child.name === "Body") continue;
      if (child.name === "Junk" || child.name === "Missing" || child.type.isError) return child;
      const inner = search(child);
      if (inner) return inner;
    }
    return null;
  };
  return search(item);
}

/** The line's stretch of text: from its first mark to its last, without comment. */
function lineSpan(item: SyntaxNode, node: SyntaxNode | null, reader: Reader): Span {
  const from = item.from - reader.base;
  const end = reader.text.indexOf("\n", from);
  const line = reader.text.slice(from, end < 0 ? undefined : end);
  let comment: SyntaxNode | null = item.getChild("Comment") ?? node?.getChild("Comment") ?? null;
  if (comment && (comment.from < item.from || comment.from >= item.from + line.length)) comment = null;
  const whole = comment ? line.slice(0, comment.from - item.from) : line;
  return { from, to: from + whole.trimEnd().length };
}

/** What could follow is tried only behind a stretch that a person would write. */
const longestGuess = 200;

function problemOf(span: Span, broken: SyntaxNode | null, reader: Reader): Problem {
  if (!broken) return problem("does-not-parse", span, { tooLong: span.to - span.from > longestLine, most: longestLine });
  const at = { from: broken.from - reader.base, to: Math.max(broken.to, broken.from) - reader.base };
  const before = reader.text.slice(span.from, Math.min(at.from, span.to));
  const junk = reader.text.slice(Math.min(at.from, span.to), span.to).trimEnd();
  const { expected, near, ends } = before.length > longestGuess ? { expected: [], near: [], ends: false } : expectationAt(before, junk);
  const opening = /^\s*([\p{L}-]+)/u.exec(reader.text.slice(span.from))?.[1] ?? "";
  const word = { from: span.from, to: span.from + opening.length };
  const where = junk === "" ? { from: Math.max(span.from, span.to - 1), to: span.to } : { from: at.from, to: span.to };
  return problem(
    "does-not-parse",
    where,
    { tooLong: false, read: before.trim(), junk, expected, near, ends },
    near.map((text) => ({ title: `write ${text}`, edits: [{ span: word, text }] })),
  );
}

const measureNodes: Readonly<Record<string, MeasureName>> = {
  Unbroken: "unbroken", Cycle: "cycle", In: "in", HoldWord: "hold", Max: "max", Recovery: "recovery", Fade: "fade",
};

/** One line's node. Null where a part that the grammar could not insist on is not there. */
function readLine(node: SyntaxNode, r: Reader): Bare | null {
  const [name, second] = r.words(node);
  const value = valueIn(node, r);
  const number = node.getChild("Number");
  const choice = r.childWord(node, "Choice");
  switch (node.name) {
    case "TeamHead": return name ? { kind: "team", name } : null;
    case "TeamRow": {
      const category = node.getChild("Category");
      return name && category ? { kind: "athlete", name, category: category.getChild("Woman") ? "woman" : "man" } : null;
    }
    case "MovementHead": return name ? { kind: "movement", name } : null;
    case "HoldHead": return name ? { kind: "hold", name } : null;
    case "Asks": {
      const asks = node.getChildren("Ask").map((ask) => ({ part: r.childWord(ask, "Part"), share: valueIn(ask, r) }));
      return { kind: "asks", asks: asks.flatMap(({ part, share }) => (part && share ? [{ part, share }] : [])) };
    }
    case "AbilityHead": {
      const on = r.childWord(node, "Date");
      return { kind: "ability", on: on && on.text, athletes: node.getChildren("Athlete").map((athlete) => r.word(athlete)) };
    }
    case "AbilityRow": {
      const measure = node.getChild("Measure");
      const kind = measure?.firstChild && measureNodes[measure.firstChild.name];
      const load = node.getChild("Load");
      if (!name || !measure || !kind) return null;
      return {
        kind: "ability row",
        subject: name,
        measure: { name: kind, within: kind === "in" ? valueIn(measure, r) : null, span: r.span(measure) },
        load: load && readLoad(load, r),
        cells: node.getChildren("Cell").flatMap((cell) => readCell(cell, r) ?? []),
      };
    }
    case "EventHead": return name ? { kind: "event", name, like: second ?? null } : null;
    case "Score": return choice && { kind: "score", choice };
    case "Cap": return value && { kind: "cap", value };
    case "HandoverLine": return value && { kind: "handover", value };
    case "SetUpLine": return value && { kind: "setup", value };
    case "Pairs": return choice && { kind: "pairs", choice };
    case "Working": return number && { kind: "working", most: r.whole(number), what: choice };
    case "Stage": return readStage(node, r);
    case "Window": return name ? { kind: "window", lasts: value, who: name } : null;
    case "Station": return name && second ? { kind: "station", name, who: second } : null;
    case "RoundHead": return { kind: "round", of: number && r.whole(number) };
    case "RoundItem": return name ? { kind: "round item", count: countIn(node, r), movement: name, clauses: readClauses(node, r) } : null;
    case "Rule": return { kind: "rule", parts: ruleParts(node, r) };
    case "Standard": return { kind: "standard", text: rawChild(node, "Text", r) };
    case "Cue": return readCue(node, r);
    case "PlanHead": return name && second ? { kind: "plan", name, event: second } : null;
    case "Pair": return readPair(node, r);
    case "Repeat": return { kind: "repeat", times: node.getChild("Until") ? null : number && r.number(number), until: node.getChild("Until") ? value : null, whenReady: node.getChild("WhenReady") !== null };
    case "Lane": return name ? { kind: "lane", name, station: second ?? null } : null;
    case "Rest": {
      const rest = readRest(node, r);
      return rest && { kind: "rest", rest };
    }
    case "Turn": {
      const size = node.getChild("Size");
      const read = size && readSize(size, r);
      return read && { kind: "turn", who: whoOf(node, r), size: read, movement: name ?? null, clauses: readClauses(node, r) };
    }
    case "RoundTurn": return { kind: "round turn", who: whoOf(node, r), count: number ? r.whole(number) : 1, clauses: readClauses(node, r), items: readBrokenItems(node, r) };
    case "NamedRest": {
      const rest = readRest(node, r);
      return rest && { kind: "named rest", who: whoOf(node, r), rest };
    }
    case "WeekHead": return name ? { kind: "week", name } : null;
    case "Zone": return { kind: "zone", zone: r.childWord(node, "ZoneName")?.text ?? "" };
    case "Due": return { kind: "due", date: rawChild(node, "Date", r), time: rawChild(node, "Time", r), zone: r.childWord(node, "ZoneName")?.text ?? null };
    case "DayLimit": {
      if (node.getChild("Least")) return value && name ? { kind: "gap", least: value, what: name } : null;
      return number && name ? { kind: "day limit", most: r.number(number), what: name } : null;
    }
    case "Keep": return value && name ? { kind: "keep", value, what: name } : null;
    case "Open": return { kind: "open", date: rawChild(node, "Date", r) || null, hours: hoursIn(node, r) ?? { from: "", to: "" } };
    case "Away": {
      const [date, until] = node.getChildren("Date").map((day) => r.raw(day));
      return { kind: "away", who: whoOf(node, r), date: date ?? "", until: until ?? null, hours: hoursIn(node, r) };
    }
    case "Day": return readDay(node, r);
    case "LogHead": return name ? { kind: "log", plan: name, date: rawChild(node, "Date", r), time: rawChild(node, "Time", r) || null } : null;
    case "LogDone": return name && value ? { kind: "log done", stage: name, at: value } : null;
    case "LogBroke": return name && number ? { kind: "log broke", athlete: name, at: r.number(number), movement: second ?? null } : null;
    case "LogDropped": return name && value ? { kind: "log dropped", athlete: name, at: value } : null;
    case "LogNoRep": return name && number ? { kind: "log no-rep", athlete: name, count: r.number(number) } : null;
    case "LogFinish": return value && { kind: "log finish", at: value };
    case "LogReps": return value && number ? { kind: "log reps", at: value, reps: r.number(number) } : null;
    case "LogHandover": return value && { kind: "log handover", value };
    case "LogFelt": return number ? { kind: "log felt", effort: r.number(number) } : null;
    case "LogNote": return { kind: "log note", text: rawChild(node, "Text", r) };
    case "Let": {
      const [expression] = childExpressions(node);
      const read = expression && readExpression(expression, r);
      return name && read ? { kind: "let", name, value: read } : null;
    }
    case "Expect": return readExpect(node, r);
    case "Compare": return { kind: "compare", plans: r.words(node) };
    case "Use": return { kind: "use", path: r.childWord(node, "String")?.text ?? "" };
    case "Assume": return name && value ? { kind: "assume", name, value } : null;
    default: return null;
  }
}

function readDay(node: SyntaxNode, r: Reader): Bare {
  const [name, second] = r.words(node);
  const numberIn = (clause: string): number | null => {
    const number = node.getChild(clause)?.getChild("Number");
    return number ? r.number(number) : null;
  };
  return {
    kind: "day",
    date: rawChild(node, "Date", r) || null,
    time: rawChild(node, "Time", r) || null,
    rest: node.getChild("RestWord") !== null,
    event: name ?? null,
    plan: second ?? null,
    again: node.getChild("Again") !== null,
    effort: numberIn("Effort"),
    weight: numberIn("Weight"),
  };
}

/** `from 6:00` and `last 2 min` before the words are a time only where a time follows: “from the hips” is words. */
function readCue(node: SyntaxNode, reader: Reader): Bare {
  const text = rawChild(node, "Text", reader);
  const said = /^(from|last)\s+(?:(\d+(?::\d\d){1,2})|(\d+(?:\.\d+)?)\s*([a-z]+))(?=\s+\S)/u.exec(text);
  const [whole = "", of, clock, digits, spelling = ""] = said ?? [];
  const unit = unitSpellings.get(spelling);
  if ((of !== "from" && of !== "last") || (clock === undefined && unit !== "s" && unit !== "min" && unit !== "h")) return { kind: "cue", text, when: null };
  const amount = clock === undefined ? Number(digits) : secondsOf(clock);
  const from = reader.span(node.getChild("Text") ?? node).from + whole.search(/\d/);
  const value: Value = { kind: "value", amount, unit: clock === undefined && (unit === "min" || unit === "h") ? unit : "s", clock: clock !== undefined, span: { from, to: from + whole.length - whole.search(/\d/) } };
  return { kind: "cue", text: text.slice(whole.length).trim(), when: { of, value } };
}

function hoursIn(node: SyntaxNode, reader: Reader): Hours | null {
  const [from, to] = rawChild(node, "Hours", reader).split(/ *[-–] */);
  return from && to ? { from, to } : null;
}

function rawChild(node: SyntaxNode, kind: string, reader: Reader): string {
  const child = node.getChild(kind);
  return child ? reader.raw(child) : "";
}

/** The line's first quantity, time, percentage or bare number. */
function valueIn(node: SyntaxNode, reader: Reader) {
  const found = node.getChild("Quantity") ?? node.getChild("Time") ?? node.getChild("Percent") ?? node.getChild("Number");
  return found && reader.value(found);
}

/** A target or a round's share: a whole number, at least 1, of reps, calories or metres; in parentheses, worked out. */
function countIn(node: SyntaxNode, reader: Reader): Value | null {
  const count = node.getChild("Count");
  if (!count) return null;
  const paren = count.getChild("Paren");
  const typed = paren && readExpression(paren, reader);
  const computed = typed && compute(typed, (path, span) => ({ ok: false, problem: problem("does-not-compute", span, { reason: "cell name", name: path.join(".") }) }));
  if (computed && !computed.ok) reader.report(computed.problem);
  const value = typed && computed?.ok ? { ...reader.value(count), amount: computed.amount.value, typed } : reader.value(count);
  if (value.unit !== null && !["rep", "m", "cal"].includes(value.unit)) {
    reader.report(problem("unit-mismatch", value.span, { given: value.unit, wanted: "a number of reps, calories (50 cal) or metres (400 m)" }));
  } else if (!Number.isInteger(value.amount) || value.amount < 1) reader.report(problem("size-not-whole", value.span, { size: Number.isNaN(value.amount) ? 0 : value.amount, least: 1, most: largestCount }));
  return Number.isNaN(value.amount) ? null : value;
}

/** Larger than any event has. */
const largestCount = 1_000_000;

function whoOf(node: SyntaxNode, reader: Reader) {
  const who = node.getChild("Who");
  return who ? reader.words(who) : [];
}

function readCell(cell: SyntaxNode, reader: Reader): Cell | null {
  const span = reader.span(cell);
  const paren = cell.getChild("Paren");
  const time = cell.getChild("Time");
  if (paren) {
    const of = readExpression(paren, reader);
    return of && { kind: "paren", of, span };
  }
  if (time) return reader.value(time);
  const unit = cell.getChild("%") ? "%" : reader.unit(cell.getChild("Unit"));
  return cell.getChild("-") ? { kind: "unknown", unit, span } : { ...reader.value(cell), unit };
}

function readStage(node: SyntaxNode, reader: Reader): Bare {
  const count = node.getChild("Count");
  const names = node.getChildren("Name");
  const before = count ? names.find((name) => name.to <= count.from) : names[0];
  const after = count ? names.find((name) => name.from >= count.to) : undefined;
  const quoted = !count && before?.getChild("String");
  const nameNode = quoted || before;
  const words = nameNode ? reader.word(nameNode) : null;
  let movement = after ? reader.word(after) : null;
  if (quoted && before && before.to > quoted.to) {
    const from = quoted.to + reader.text.slice(quoted.to - reader.base).search(/\S/);
    const span = { from: from - reader.base, to: before.to - reader.base };
    movement = { text: reader.text.slice(span.from, span.to).replace(/\s+/g, " "), span };
  }
  return { kind: "stage", name: words, count: countIn(node, reader), movement, clauses: readClauses(node, reader) };
}

/** `pair A  Ines + Bram`: the last word before the first + is an athlete, those before it the pair's name. */
function readPair(node: SyntaxNode, reader: Reader): Bare | null {
  const [first, ...others] = node.getChildren("Name");
  const raw = first ? reader.raw(first) : "";
  const split = /^(.*\S)\s+(\S+)$/s.exec(raw);
  if (!first || !split?.[1] || !split[2] || others.length === 0) return null;
  const from = first.from - reader.base;
  const to = from + raw.length;
  const name = { text: reader.clean(split[1]), span: { from, to: from + split[1].length } };
  const athlete = { text: reader.clean(split[2]), span: { from: to - split[2].length, to } };
  return { kind: "pair", name, athletes: [athlete, ...others.map((other) => reader.word(other))] };
}

function ruleParts(node: SyntaxNode, reader: Reader) {
  const parts = [];
  for (let child = node.firstChild; child; child = child.nextSibling) {
    if (child.name === "RuleWord") parts.push(reader.word(child));
    else if (["Quantity", "Percent", "Number", "Time"].includes(child.name)) parts.push(reader.value(child));
  }
  return parts;
}

function readExpect(node: SyntaxNode, reader: Reader): Bare | null {
  const [left, right] = childExpressions(node);
  const comparison = node.getChild("Comparison");
  const words = comparison && reader.raw(comparison).replace(/\s+/g, " ");
  const known: readonly Comparison[] = ["under", "over", "at most", "at least", "is"];
  const found = known.find((word) => word === words);
  const a = left && readExpression(left, reader);
  const b = right && readExpression(right, reader);
  return a && b && found ? { kind: "expect", left: a, comparison: found, right: b } : null;
}
