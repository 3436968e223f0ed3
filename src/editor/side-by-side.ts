import { MergeView } from "@codemirror/merge";
import { EditorState } from "@codemirror/state";
import { EditorView } from "@codemirror/view";
import { planSupport } from "./language.js";

/** Two texts of one document side by side; what differs can be taken over from the left into the right. */
export interface SideBySide {
  /** The text at the right as it stands. */
  readonly text: () => string;
  readonly close: () => void;
}

/** `retyped` hears of each change of the text at the right. */
export function sideBySide(parent: HTMLElement, theirs: string, mine: string, retyped: (text: string) => void): SideBySide {
  const shared = [EditorView.lineWrapping, planSupport()];
  const named = (label: string) => EditorView.contentAttributes.of({ "aria-label": label, tabindex: "0" });
  const view = new MergeView({
    parent,
    a: { doc: theirs, extensions: [...shared, named("The text of somebody else"), EditorState.readOnly.of(true), EditorView.editable.of(false)] },
    b: { doc: mine, extensions: [...shared, named("Your text"), EditorView.updateListener.of(({ docChanged, state }) => docChanged && retyped(state.doc.toString()))] },
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
