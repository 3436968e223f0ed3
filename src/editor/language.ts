import { HighlightStyle, indentUnit, LanguageSupport, LRLanguage, syntaxHighlighting } from "@codemirror/language";
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

/** The plan language for CodeMirror: highlighting, two-space indents, `//` comments. */
export function planSupport(): LanguageSupport {
  return new LanguageSupport(planLanguage, [syntaxHighlighting(highlight), indentUnit.of("  ")]);
}
