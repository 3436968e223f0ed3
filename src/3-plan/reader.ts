import type { SyntaxNode } from "@lezer/common";
import { unitSpellings } from "../../grammar/tokens.js";
import { type Problem, problem } from "../0-base/problem.js";
import { secondsOf, type Unit, units } from "../0-base/quantity.js";
import type { Span } from "../0-base/span.js";
import type { Value, Word } from "./parts.js";

/** The most rounds or passes that a line may ask for. */
export const mostPasses = 1000;

/** Reads the small things of a line's tree: names, numbers, words. Offsets come out counted from `base`. */
export class Reader {
  constructor(
    readonly text: string,
    readonly base: number,
    readonly report: (problem: Problem) => void = () => undefined,
  ) {}

  span(node: SyntaxNode): Span {
    return { from: node.from - this.base, to: node.to - this.base };
  }

  raw(node: SyntaxNode): string {
    return this.text.slice(node.from - this.base, node.to - this.base);
  }

  word(node: SyntaxNode): Word {
    return { text: this.clean(this.raw(node)), span: this.span(node) };
  }

  /** A name as it is compared: without quotes, blanks single, letters composed, nothing that cannot be seen. */
  clean(raw: string): string {
    return raw
      .normalize("NFC")
      .replace(/["\u00ad\u200b-\u200d\u2060\ufeff]/g, "")
      .replace(/\s+/g, " ")
      .trim();
  }

  /** A count that the language needs whole, at least 1; told where it is not. */
  whole(node: SyntaxNode): number {
    const count = this.number(node);
    if (!Number.isInteger(count) || count < 1)
      this.report(problem("size-not-whole", this.span(node), { size: count, least: 1, most: mostPasses }));
    return count;
  }

  /** The word that opens a line, as the language spells it. */
  headOf(node: SyntaxNode): string {
    const head = node.getChild("Head");
    return head ? this.raw(head).toLowerCase() : "";
  }

  words(node: SyntaxNode): readonly Word[] {
    return node.getChildren("Name").map((name) => this.word(name));
  }

  number(node: SyntaxNode): number {
    return Number(this.raw(node));
  }

  /** The first child of that kind as a word, or null. */
  childWord(node: SyntaxNode, kind: string): Word | null {
    const child = node.getChild(kind);
    return child && this.word(child);
  }

  /** A number, time, percentage or quantity node. */
  value(node: SyntaxNode): Value {
    const span = this.span(node);
    if (node.name === "Time") return { kind: "value", amount: secondsOf(this.raw(node)), unit: "s", clock: true, span };
    const digits = node.name === "Number" ? node : node.getChild("Number");
    const unit = node.name === "Percent" ? "%" : this.unit(node.getChild("Unit"));
    return { kind: "value", amount: digits ? this.number(digits) : Number.NaN, unit, clock: false, span };
  }

  unit(node: SyntaxNode | null): Unit | null {
    if (!node) return null;
    const spelling = unitSpellings.get(this.raw(node)) ?? this.raw(node);
    return isUnit(spelling) ? spelling : null;
  }
}

export function isUnit(text: string): text is Unit {
  return Object.hasOwn(units, text);
}
