import { type Action, type Diagnostic, forEachDiagnostic, linter, lintKeymap, setDiagnostics } from "@codemirror/lint";
import { type ChangeDesc, type Extension, RangeSet, StateEffect, StateField } from "@codemirror/state";
import { type EditorView, gutterLineClass, GutterMarker, keymap } from "@codemirror/view";
import type { Fix } from "../0-base/problem.js";
import type { Finding } from "../5-findings/judge.js";

/** A finding whose spans count from the start of the document. */
export type PlacedFinding = Finding;

/** Marks the number of a line that has a finding; the style sheet draws a sign there. */
class LineMark extends GutterMarker {
  constructor(readonly severity: Finding["severity"]) {
    super();
    this.elementClass = `rota-line-${severity}`;
  }

  override eq(other: LineMark): boolean {
    return other.severity === this.severity;
  }
}

const marks = { error: new LineMark("error"), warning: new LineMark("warning"), note: new LineMark("note") };
const order = ["error", "warning", "note"] as const;
const mark = StateEffect.define<RangeSet<GutterMarker>>();

/** Marked lines. Not the lint gutter: its icons cost more at every key than all answers together. */
const markedLines = StateField.define<RangeSet<GutterMarker>>({
  create: () => RangeSet.empty,
  update(lines, transaction) {
    const set = transaction.effects.find((effect) => effect.is(mark));
    return set ? set.value : lines.map(transaction.changes);
  },
  provide: (field) => gutterLineClass.from(field),
});

/** Shows findings under the text they are about and at their line's number; a fix is one undoable change. */
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
  const worst = new Map<number, Finding["severity"]>();
  findings.forEach(({ severity, span }) => {
    const line = view.state.doc.lineAt(map(span.from, 1)).from;
    const other = worst.get(line);
    if (!other || order.indexOf(severity) < order.indexOf(other)) worst.set(line, severity);
  });
  const lines = RangeSet.of(
    [...worst].map(([at, severity]) => marks[severity].range(at)),
    true,
  );
  view.dispatch(
    setDiagnostics(
      view.state,
      diagnostics.sort((a, b) => a.from - b.from),
    ),
    { effects: mark.of(lines) },
  );
}

function actionOf({ title, edits }: Fix, since: ChangeDesc | null): Action {
  const map = (offset: number): number => (since ? since.mapPos(offset) : offset);
  return {
    name: title,
    apply: (view) =>
      view.dispatch({
        changes: edits.map(({ span, text }) => ({ from: map(span.from), to: map(span.to), insert: text })),
        userEvent: "input.fix",
      }),
  };
}

/** A finding shown in the text, with what one press does about it. */
export interface ShownFinding {
  readonly severity: string;
  readonly message: string;
  readonly fixes: readonly { readonly title: string; readonly apply: () => void }[];
}

/** The findings that begin in the cursor's line, as they stand now. */
export function findingsAtCursor(view: EditorView): readonly ShownFinding[] {
  const { from, to } = view.state.doc.lineAt(view.state.selection.main.head);
  const found: ShownFinding[] = [];
  forEachDiagnostic(view.state, ({ severity, message, actions }, start, end) => {
    if (start < from || start > to) return;
    found.push({
      severity,
      message,
      fixes: (actions ?? []).map(({ name, apply }) => ({ title: name, apply: () => apply(view, start, end) })),
    });
  });
  return found;
}

/** Does the first thing that mends a finding of the cursor's line. */
export function mendLine(view: EditorView): boolean {
  const first = findingsAtCursor(view).flatMap(({ fixes }) => fixes)[0];
  first?.apply();
  return first !== undefined;
}

/**
 * F8 steps to the next finding; Alt+Enter mends the cursor's line. What is found in the cursor's line stands under the
 * text already: no tip covers it.
 */
export function findings(): Extension {
  return [
    markedLines,
    linter(null, {
      tooltipFilter: (found, { doc, selection }) =>
        found.filter(({ from }) => doc.lineAt(from).number !== doc.lineAt(selection.main.head).number),
    }),
    keymap.of([...lintKeymap, { key: "Alt-Enter", run: mendLine }]),
  ];
}
