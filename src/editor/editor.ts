import { closeBrackets, closeBracketsKeymap } from "@codemirror/autocomplete";
import { defaultKeymap, history, historyKeymap, indentWithTab, redo } from "@codemirror/commands";
import { codeFolding, foldKeymap } from "@codemirror/language";
import { highlightSelectionMatches, searchKeymap } from "@codemirror/search";
import { EditorState, type Extension } from "@codemirror/state";
import { drawSelection, EditorView, highlightActiveLine, keymap, lineNumbers, type ViewUpdate } from "@codemirror/view";
import { answers, type Explains } from "./answers.js";
import { findings } from "./findings.js";
import { help, type Helps } from "./help.js";
import { planSupport } from "./language.js";
import { wholeTree } from "./whole-tree.js";

/** The state of an editor over one document. `changed` is told of every update. */
export function editorState(text: string, changed: (update: ViewUpdate) => void, asks: Explains & Helps): EditorState {
  return EditorState.create({
    doc: text,
    extensions: [bare(), answers(asks), findings(), help(asks), EditorView.updateListener.of(changed)],
  });
}

/** The editor without answers, findings or help: what the benchmark measures against. */
export function bare(): Extension {
  return [
    lineNumbers(),
    history(),
    drawSelection(),
    codeFolding(),
    closeBrackets(),
    highlightActiveLine(),
    highlightSelectionMatches(),
    EditorState.phrases.of({ regexp: "pattern", "by word": "whole words", "match case": "capitals as typed", all: "select all" }),
    EditorView.lineWrapping,
    EditorView.contentAttributes.of({
      "aria-label": "Plan text",
      "aria-description": "Tab indents. Escape, then Tab, leaves the text.",
      tabindex: "0",
      spellcheck: "false",
      autocapitalize: "off",
    }),
    planSupport(),
    wholeTree,
    keymap.of([
      ...closeBracketsKeymap,
      ...defaultKeymap,
      ...historyKeymap,
      ...searchKeymap,
      ...foldKeymap,
      { key: "Mod-Shift-z", run: redo },
      indentWithTab,
    ]),
  ];
}
