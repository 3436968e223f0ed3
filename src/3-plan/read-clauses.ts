import type { SyntaxNode } from "@lezer/common";
import type { BrokenItem, BrokenSet, Clauses, Load, RestSize, Size, WhileClause } from "./ast.js";
import { problem } from "../0-base/problem.js";
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
    return { kind: "ladder", steps, again: ladder.getChild("Again") !== null, span };
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
    parts: node.getChildren("Number").map((number) => reader.number(number)),
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
