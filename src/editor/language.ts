import { foldService, HighlightStyle, indentService, indentUnit, LanguageSupport, LRLanguage, syntaxHighlighting } from "@codemirror/language";
import { tags } from "@lezer/highlight";
import { planParser } from "../2-tree/parser.js";

const planLanguage = LRLanguage.define({ name: "rota", parser: planParser, languageData: { commentTokens: { line: "//" } } });

const highlight = HighlightStyle.define([
  { tag: tags.definitionKeyword, class: "rota-head" },
  { tag: tags.keyword, class: "rota-word" },
  { tag: [tags.number, tags.unit], class: "rota-number" },
  { tag: tags.definition(tags.variableName), class: "rota-declared" },
  { tag: tags.heading, class: "rota-heading" },
  { tag: tags.docComment, class: "rota-note" },
  { tag: tags.lineComment, class: "rota-comment" },
  { tag: tags.string, class: "rota-text" },
  { tag: tags.invalid, class: "rota-junk" },
]);

/** A line folds over what is indented under it. */
const folding = foldService.of(({ doc }, from) => {
  const head = doc.lineAt(from);
  const depth = head.text.search(/\S/);
  if (depth < 0) return null;
  let last = head;
  for (let number = head.number + 1; number <= doc.lines; number += 1) {
    const line = doc.line(number);
    const at = line.text.search(/\S/);
    if (at >= 0 && at <= depth) break;
    if (at >= 0) last = line;
  }
  return last === head ? null : { from: head.to, to: last.to };
});

/** Lines that something is indented under: heads of blocks; of stages, windows and rounds those that stand alone on their line. */
const opens = /^\s*((team|movement|hold|ability|event|plan|week|log|repeat|lane)\b|(stage|window)\s[^\d]*$|round(\s+of\s+\d+)?\s*$)/;
const indentStep = 2;

/** A new line stands where the one before it stands, or under it where that opens a block. */
const indenting = indentService.of((context, at) => {
  const before = context.lineAt(at, -1);
  const text = before.from < at ? before.text.slice(0, at - before.from) : context.state.doc.lineAt(Math.max(0, at - 1)).text;
  return text.trim() === "" ? 0 : text.search(/\S/) + (opens.test(text) ? indentStep : 0);
});

/** The plan language for CodeMirror: highlighting, two-space indents, `//` comments, new lines under their block, folding by indent. */
export function planSupport(): LanguageSupport {
  return new LanguageSupport(planLanguage, [syntaxHighlighting(highlight), indentUnit.of("  "), folding, indenting]);
}
