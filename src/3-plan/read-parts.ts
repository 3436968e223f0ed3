import type { SyntaxNode } from "@lezer/common";
import type { Beside, BrokenItem, BrokenSet, HandChange, Clauses, Hours, Load, RestSize, Size, Value, WhileClause, Word } from "./parts.js";
import { problem } from "../0-base/problem.js";
import { compute } from "./formula.js";
import { readExpression } from "./read-expression.js";
import type { Reader } from "./reader.js";

/** The parts of a turn, a stage or an item of a round that come after what is done: load, how, broken set, hold. */
export function readClauses(line: SyntaxNode, reader: Reader): Clauses {
  const clauses: { -readonly [K in keyof Clauses]: Clauses[K] } = { load: null, how: null, broken: null, hold: null };
  for (let node = line.firstChild; node; node = node.nextSibling) {
    if (node.name === "Load") {
      const read = readLoad(node, reader);
      if (clauses.hold) clauses.hold = { ...clauses.hold, load: read };
      else clauses.load = read;
    } else if (node.name === "Each") clauses.how = "each";
    else if (node.name === "InSync") clauses.how = "in sync";
    else if (node.name === "Together") clauses.how = "together";
    else if (node.name === "Shared") clauses.how = "shared";
    else if (node.name === "As") clauses.broken = readBrokenSet(node, reader);
    else if (node.name === "While") clauses.hold = readWhile(node, reader);
  }
  return clauses;
}

/** `@ 30/20 kg`: man first, then woman. */
export function readLoad(node: SyntaxNode, reader: Reader): Load | null {
  const [man, woman] = node.getChildren("Number").map((number) => reader.number(number));
  const unit = reader.unit(node.getChild("Unit"));
  if (man === undefined || (unit !== "kg" && unit !== "lb")) {
    reader.report(problem("unit-mismatch", reader.span(node), { given: unit ?? "", wanted: "a load such as 20 kg or 45 lb" }));
    return null;
  }
  return { man, woman: woman ?? man, unit, span: reader.span(node) };
}

export function readSize(node: SyntaxNode, reader: Reader): Size | null {
  const span = reader.span(node);
  const paren = node.getChild("Paren");
  const percent = node.getChild("Percent");
  const ladder = node.getChild("Ladder");
  if (paren) {
    const of = readExpression(paren, reader);
    return of && { kind: "expression", of, span };
  }
  if (percent) return { kind: "percent", fraction: reader.value(percent).amount / 100, span };
  if (ladder) {
    const steps = ladder.getChildren("Number").map((number) => reader.number(number));
    return { kind: "ladder", steps, ofBest: ladder.getChild("Unbroken") !== null, again: ladder.getChild("Again") !== null, span };
  }
  return { kind: "number", value: reader.value(node), span };
}

/** The rest of a `rest` line. */
export function readRest(line: SyntaxNode, reader: Reader): RestSize | null {
  if (line.getChild("Ready")) return { kind: "ready" };
  const ratio = line.getChild("Ratio");
  if (ratio) {
    const [work = 1, rest = 1] = reader.raw(ratio).split(":").map(Number);
    if (work === 0) reader.report(problem("size-not-whole", reader.span(ratio), { size: 0, least: 1, most: 9 }));
    return { kind: "ratio", work, rest };
  }
  const share = line.getChild("Percent");
  if (share) return { kind: "share", fraction: reader.value(share).amount / 100, span: reader.span(share) };
  const time = line.getChild("Quantity") ?? line.getChild("Time");
  return time && { kind: "time", value: reader.value(time) };
}

/** The items of a round that are broken on purpose. */
export function readBrokenItems(line: SyntaxNode, reader: Reader): readonly BrokenItem[] {
  return line.getChildren("BrokenItem").flatMap((node): readonly BrokenItem[] => {
    const [movement, as] = [reader.childWord(node, "Name"), node.getChild("As")];
    return movement && as ? [{ movement, broken: readBrokenSet(as, reader) }] : [];
  });
}

function readBrokenSet(node: SyntaxNode, reader: Reader): BrokenSet {
  const rest = node.getChild("Quantity") ?? node.getChild("Time");
  return {
    parts: node.getChildren("Number").map((number) => reader.whole(number)),
    rest: rest && reader.value(rest),
    span: reader.span(node),
  };
}

function readWhile(node: SyntaxNode, reader: Reader): WhileClause {
  const who = node.getChild("Who");
  const count = node.getChild("Number");
  return {
    count: count && reader.number(count),
    who: who ? reader.words(who) : [],
    hold: reader.childWord(node, "Name"),
    load: null,
    span: reader.span(node),
  };
}

/** A target or a round's share: a whole number, at least 1, of reps, calories or metres; in parentheses, worked out. */
export function readCount(node: SyntaxNode, reader: Reader): Value | null {
  const count = node.getChild("Count");
  if (!count) return null;
  const paren = count.getChild("Paren");
  const typed = paren && readExpression(paren, reader);
  const computed =
    typed &&
    compute(typed, (path, span) => ({
      ok: false,
      problem: problem("does-not-compute", span, { reason: "cell name", name: path.join(".") }),
    }));
  if (computed && !computed.ok) reader.report(computed.problem);
  const value = typed && computed?.ok ? { ...reader.value(count), amount: computed.amount.value, typed } : reader.value(count);
  if (value.unit !== null && !["rep", "m", "cal"].includes(value.unit)) {
    reader.report(
      problem("unit-mismatch", value.span, { given: value.unit, wanted: "a number of reps, calories (50 cal) or metres (400 m)" }),
    );
  } else if (!Number.isInteger(value.amount) || value.amount < 1)
    reader.report(
      problem("size-not-whole", value.span, { size: Number.isNaN(value.amount) ? 0 : value.amount, least: 1, most: largestCount }),
    );
  return Number.isNaN(value.amount) ? null : value;
}

/** Larger than any event has. */
const largestCount = 1_000_000;

export function hoursIn(node: SyntaxNode, reader: Reader): Hours | null {
  const [from, to] = rawChild(node, "Hours", reader).split(/ *[-–] */);
  return from && to ? { from, to } : null;
}

export function rawChild(node: SyntaxNode, kind: string, reader: Reader): string {
  const child = node.getChild(kind);
  return child ? reader.raw(child) : "";
}

/** The line's first quantity, time, percentage or bare number. */
export function valueIn(node: SyntaxNode, reader: Reader): Value | null {
  const found = node.getChild("Quantity") ?? node.getChild("Time") ?? node.getChild("Percent") ?? node.getChild("Number");
  return found && reader.value(found);
}

export function whoIn(node: SyntaxNode, reader: Reader): readonly Word[] {
  const who = node.getChild("Who");
  return who ? reader.words(who) : [];
}

/** How often those who take turns change; null where each turn is one. */
export function readChange(line: SyntaxNode, reader: Reader): HandChange | null {
  const every = line.getChild("Every");
  const reps = every && valueIn(every, reader);
  if (reps) return { kind: "every", reps: { ...reps, unit: reader.unit(every.getChild("Unit")) } };
  return line.getChild("Will") ? { kind: "at will" } : null;
}

/** Others of a turn with numbers of their own. */
export function readBeside(line: SyntaxNode, reader: Reader): readonly Beside[] {
  return line.getChildren("Beside").flatMap((node) => {
    const size = node.getChild("Size");
    const read = size && readSize(size, reader);
    return read ? [{ who: whoIn(node, reader), size: read }] : [];
  });
}
