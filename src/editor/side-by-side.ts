import { MergeView, unifiedMergeView } from "@codemirror/merge";
import { EditorState } from "@codemirror/state";
import { EditorView } from "@codemirror/view";
import { planSupport } from "./language.js";

/** Two texts of one document; what differs can be taken over into one's own. */
export interface SideBySide {
  /** One's own text as it stands. */
  readonly text: () => string;
  readonly close: () => void;
}

/** The same in one column, for a screen without room for two: what the other text has there stands struck out above each place. */
export function inOneColumn(parent: HTMLElement, theirs: string, mine: string, retyped: (text: string) => void): SideBySide {
  const view = new EditorView({
    parent,
    doc: mine,
    extensions: [
      EditorView.lineWrapping,
      planSupport(),
      EditorView.contentAttributes.of({ "aria-label": "Your text; what the other has stands above it", tabindex: "0" }),
      EditorView.updateListener.of(({ docChanged, state }) => docChanged && retyped(state.doc.toString())),
      unifiedMergeView({
        original: theirs,
        collapseUnchanged: { margin: 3, minSize: 6 },
        mergeControls: (type, action) => {
          const button = document.createElement("button");
          button.type = "button";
          button.textContent = type === "reject" ? "Take theirs here" : "Keep mine here";
          button.addEventListener("mousedown", action);
          button.addEventListener("click", (event) => event.detail === 0 && action(event));
          return button;
        },
      }),
    ],
  });
  return { text: () => view.state.doc.toString(), close: () => view.destroy() };
}

/** `retyped` hears of each change of the text at the right. */
export function sideBySide(parent: HTMLElement, theirs: string, mine: string, retyped: (text: string) => void): SideBySide {
  const shared = [EditorView.lineWrapping, planSupport()];
  const named = (label: string) => EditorView.contentAttributes.of({ "aria-label": label, tabindex: "0" });
  const view = new MergeView({
    parent,
    a: {
      doc: theirs,
      extensions: [...shared, named("The text of somebody else"), EditorState.readOnly.of(true), EditorView.editable.of(false)],
    },
    b: {
      doc: mine,
      extensions: [
        ...shared,
        named("Your text"),
        EditorView.updateListener.of(({ docChanged, state }) => docChanged && retyped(state.doc.toString())),
      ],
    },
    revertControls: "a-to-b",
    renderRevertControl: () => {
      const button = document.createElement("button");
      button.type = "button";
      button.textContent = "→";
      button.title = "Take this piece over";
      button.setAttribute("aria-label", "Take this piece of the other text over");
      return button;
    },
    collapseUnchanged: { margin: 3, minSize: 6 },
  });
  return { text: () => view.b.state.doc.toString(), close: () => view.destroy() };
}
