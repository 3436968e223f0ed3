import { forceParsing, syntaxTreeAvailable } from "@codemirror/language";
import { type EditorView, ViewPlugin } from "@codemirror/view";

/** How long the parser may have at a time: a frame stays free. */
const sliceMs = 8;

/**
 * Parses the document to its end in small slices once it is shown. CodeMirror by itself stops 100,000 characters behind
 * the window; a tree that stops short is not balanced, and at 10,000 lines each key then takes some 5 ms to reuse it
 * block by block instead of 0.3 ms.
 */
export const wholeTree = ViewPlugin.fromClass(
  class {
    private timer = 0;

    constructor(private readonly view: EditorView) {
      this.later();
    }

    destroy(): void {
      window.clearTimeout(this.timer);
    }

    private later(): void {
      this.timer = window.setTimeout(() => {
        const { length } = this.view.state.doc;
        if (syntaxTreeAvailable(this.view.state, length)) return;
        forceParsing(this.view, length, sliceMs);
        this.later();
      }, 4 * sliceMs);
    }
  },
);
