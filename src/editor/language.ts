import {
  foldService,
  HighlightStyle,
  indentOnInput,
  indentService,
  indentUnit,
  LanguageSupport,
  LRLanguage,
  syntaxHighlighting,
} from "@codemirror/language";
import { tags } from "@lezer/highlight";
import { planParser } from "../2-tree/parser.js";

/** A line that can only stand at the margin, while its first word is typed. */
const marginal = /^\s*(team|movement|hold|ability|event|plan|week|log|let|expect|compare|use|assume)\s$|^\s*[#>]$/i;

const planLanguage = LRLanguage.define({
  name: "rota",
  parser: planParser,
  languageData: { commentTokens: { line: "//" }, indentOnInput: marginal },
});

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

/** Lines that begin a block, at the margin only: an ability's row may begin with the same words. */
const heads = /^(team|movement|hold|ability|event|plan|week|log)\b/i;
/** Lines inside a block that something is indented under; a published stage has nothing under it. */
const opens = /^\s+((repeat|lane|window)\b|stage\s[^\d]*$|round(\s+of\s+\d+)?\s*$)/i;
const opensInEvent = /^\s+round(\s+of\s+\d+)?\s*$/i;
/** In these a line may begin with any name. */
const named = /^(ability|week)\b/i;
const indentStep = 2;

/**
 * A new line stands where the one before it stands, or under it where that opens a block; what can't stand in a block
 * goes to the margin.
 */
const indenting = indentService.of(({ state: { doc }, simulatedBreak }, at) => {
  const here = doc.lineAt(at);
  let head = here;
  while (head.number > 1 && !/^\S/.test(head.text)) head = doc.line(head.number - 1);
  if (simulatedBreak !== at) return marginal.test(here.text) && !named.test(head.text) ? 0 : null;
  const text = here.text.slice(0, at - here.from);
  const inside = heads.test(text) || (/^event\b/i.test(head.text) ? opensInEvent : opens).test(text);
  return text.trim() === "" ? 0 : text.search(/\S/) + (inside ? indentStep : 0);
});

/** The plan language for CodeMirror: highlighting, two-space indents, `//` comments, new lines under their block, folding by indent. */
export function planSupport(): LanguageSupport {
  return new LanguageSupport(planLanguage, [syntaxHighlighting(highlight), indentUnit.of("  "), folding, indenting, indentOnInput()]);
}
