import { type Action, type Diagnostic, lintGutter, lintKeymap, setDiagnostics } from "@codemirror/lint";
import type { ChangeDesc, Extension } from "@codemirror/state";
import { type EditorView, keymap } from "@codemirror/view";
import type { Fix } from "../0-base/problem.js";
import type { Finding } from "../5-findings/judge.js";

/** A finding whose spans count from the start of the document. */
export type PlacedFinding = Finding;

/** Shows findings under the text they are about; a fix is one undoable change. */
export function showFindings(view: EditorView, findings: readonly PlacedFinding[], since: ChangeDesc | null): void {
  const map = (offset: number, side: -1 | 1): number => Math.min(since ? since.mapPos(offset, side) : offset, view.state.doc.length);
  const diagnostics = findings.map(({ rule, severity, span, message, why, fixes }): Diagnostic => ({
    from: map(span.from, 1),
    to: Math.max(map(span.from, 1), map(span.to, -1)),
    severity: severity === "note" ? "info" : severity,
    source: rule,
    message: `${message} ${why}`,
    actions: fixes.map((fix) => actionOf(fix, since)),
  }));
  view.dispatch(setDiagnostics(view.state, diagnostics.sort((a, b) => a.from - b.from)));
}

function actionOf({ title, edits }: Fix, since: ChangeDesc | null): Action {
  const map = (offset: number): number => (since ? since.mapPos(offset) : offset);
  return {
    name: title,
    apply: (view) => view.dispatch({ changes: edits.map(({ span, text }) => ({ from: map(span.from), to: map(span.to), insert: text })), userEvent: "input.fix" }),
  };
}

/** F8 steps to the next finding; the gutter marks lines that have one. */
export function findings(): Extension {
  return [lintGutter(), keymap.of(lintKeymap)];
}
