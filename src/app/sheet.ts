import { indentLess, indentMore, isolateHistory, redo, undo } from "@codemirror/commands";
import { foldAll, foldCode, unfoldAll } from "@codemirror/language";
import { nextDiagnostic, previousDiagnostic } from "@codemirror/lint";
import { openSearchPanel } from "@codemirror/search";
import { ChangeSet, type EditorState, type Text } from "@codemirror/state";
import { EditorView, type ViewUpdate } from "@codemirror/view";
import type { Document } from "../1-text/document.js";
import { difference } from "../1-text/edits.js";
import type { Completions } from "../7-view/completion.js";
import { type Row, tabbed } from "../7-view/columns.js";
import type { Help, Place } from "../7-view/name-help.js";
import { showAnswers, shownAnswers } from "../editor/answers.js";
import { editorState } from "../editor/editor.js";
import { findingsAtCursor, mendLine, showFindings, type ShownFinding } from "../editor/findings.js";
import { numberAt } from "../7-view/number-at.js";
import type { Core } from "./core.js";
import type { Tried } from "./number-trial.js";
import type { FromWorker, TextEdit } from "./protocol.js";

/** What the sheet tells the page. */
export interface SheetEvents {
  readonly typed: (path: string, read: () => string) => void;
  readonly goTo: (place: Place) => void;
  readonly renameName: (offset: number) => void;
  /** The pointer is at the answer beside the line at this offset; null where it has left. */
  readonly pointed: (offset: number | null) => void;
  readonly readOut: () => string;
  /** Cells of a spreadsheet were pasted: as a block, `put`; else as they are. */
  readonly pastedTable: (text: string, put: (block: string) => void, otherwise: () => void) => void;
  /** The number under the cursor that can be tried; null where there is none. */
  readonly atNumber: (tried: Tried | null) => void;
  /** The best value that is known for it. */
  readonly bestNumber: () => number | null;
  /** The cursor or the pointer has come to a line. */
  readonly atLine: (from: number, to: number) => void;
}

/** The cursor rests at a number for so long before its neighbours are tried. */
const restMs = 350;

/** What plays in time: a number elsewhere is no choice of the coach's. */
const triedBlocks = /^(plan|event|assume)\b/i;

const commands = {
  foldCode,
  foldAll,
  unfoldAll,
  nextDiagnostic,
  previousDiagnostic,
  mendLine,
  openSearchPanel,
  undo,
  redo,
  indentMore,
  indentLess,
};

/** The text of one document at a time with its answers and findings; each document keeps its own undo. */
export class Sheet {
  path = "";
  private readonly view: EditorView;
  private readonly states = new Map<string, EditorState>();
  /** Changes of the shown document that the worker has not answered yet, by version. */
  private unanswered: { readonly version: number; readonly changes: ChangeSet }[] = [];
  private version = 0;
  private resting: ReturnType<typeof setTimeout> | undefined;
  /** A change that went through several documents: the text it left here, and what takes all of it back. */
  private whole: { readonly doc: Text; readonly takeBack: () => void } | null = null;
  /** Where the last step of a number left the text. */
  private stepped: { readonly doc: Text; readonly from: number } | null = null;

  constructor(
    parent: HTMLElement,
    private readonly core: Core,
    private readonly events: SheetEvents,
  ) {
    this.view = new EditorView({ parent });
    // The text inside takes the focus; the scroller is no stop of its own.
    this.view.scrollDOM.removeAttribute("tabindex");
    this.view.contentDOM.addEventListener("keydown", this.onNumberKey, { capture: true });
    this.view.contentDOM.addEventListener("paste", (event) => this.onPaste(event), { capture: true });
    this.view.contentDOM.addEventListener("mouseover", ({ target }) => {
      const line = target instanceof Element ? target.closest(".cm-line") : null;
      if (line) this.atLine(this.view.posAtDOM(line));
    });
  }

  /** Shows a document; `documents` is the notebook as it stands. */
  open(path: string, documents: readonly Document[]): void {
    if (this.path !== "") this.states.set(this.path, this.view.state);
    this.path = path;
    this.version += 1;
    this.unanswered = [];
    const text = documents.find((one) => one.path === path)?.text ?? "";
    const known = this.states.get(path);
    const edit = known && difference(known.doc.toString(), text);
    // The worker first: it answers while the text is laid out here.
    this.core.tell({ kind: "open", documents, path, version: this.version });
    this.view.setState(
      known && edit
        ? known.update({ changes: { from: edit.span.from, to: edit.span.to, insert: edit.text } }).state
        : (known ?? this.freshState(text)),
    );
  }

  /** The shown document goes by another name from now on; nothing else changes. */
  rename(path: string, documents: readonly Document[]): void {
    this.states.delete(this.path);
    this.path = path;
    this.version += 1;
    this.unanswered = [];
    this.core.tell({ kind: "open", documents, path, version: this.version });
  }

  /** A document that is gone is begun anew when it comes back. */
  forget(path: string): void {
    this.states.delete(path);
    if (this.path === path) this.path = "";
  }

  get text(): string {
    return this.view.state.doc.toString();
  }

  get hasSelection(): boolean {
    return !this.view.state.selection.main.empty;
  }

  get cursor(): number {
    return this.view.state.selection.main.head;
  }

  focus(): void {
    this.view.focus();
  }

  run(name: keyof typeof commands): void {
    this.view.focus();
    if (name !== "undo" || !this.undoWhole()) commands[name](this.view);
  }

  /** Out of the text: the next Tab goes on from it, and a phone's keyboard is put away. */
  leave(): void {
    this.view.contentDOM.blur();
  }

  /** Undo straight after a change of several documents takes it back in all of them. */
  private readonly undoWhole = (): boolean => {
    const { whole } = this;
    this.whole = null;
    if (!whole || whole.doc !== this.view.state.doc) return false;
    whole.takeBack();
    return true;
  };

  /** The shown text becomes another in one step that can be undone, by `takeBack` where it is given; only what differs is touched. */
  become(text: string, takeBack: (() => void) | null = null): void {
    const edit = difference(this.text, text);
    if (edit)
      this.view.dispatch({
        changes: { from: edit.span.from, to: edit.span.to, insert: edit.text },
        userEvent: "input.replace",
        annotations: isolateHistory.of("full"),
      });
    this.whole = takeBack && { doc: this.view.state.doc, takeBack };
  }

  /**
   * Puts a block at the end of the document, in one step that can be undone; `select`: what of it is selected then, else
   * the cursor stands at its start.
   */
  append(block: string, select = ""): void {
    const { doc } = this.view.state;
    const gap = doc.length === 0 ? "" : doc.lineAt(doc.length).length > 0 ? "\n\n" : "\n";
    const at = doc.length + gap.length + Math.max(0, block.indexOf(select));
    this.view.dispatch({
      changes: { from: doc.length, insert: gap + block },
      selection: { anchor: at, head: at + select.length },
      scrollIntoView: true,
      userEvent: "input.complete",
      annotations: isolateHistory.of("full"),
    });
    this.view.focus();
  }

  go(offset: number): void {
    const at = Math.min(offset, this.view.state.doc.length);
    this.view.dispatch({ selection: { anchor: at }, effects: EditorView.scrollIntoView(at, { y: "center" }) });
    this.view.focus();
  }

  /** Lights up the line at an offset, where it is on the screen; null puts the light out. */
  light(offset: number | null): void {
    this.view.dom.querySelector(".rota-lit")?.classList.remove("rota-lit");
    if (offset === null || offset > this.view.state.doc.length) return;
    const { node } = this.view.domAtPos(this.view.state.doc.lineAt(offset).from);
    const element = node instanceof Element ? node : node.parentElement;
    element?.closest(".cm-line")?.classList.add("rota-lit");
  }

  /** The findings of the cursor's line. */
  findings(): readonly ShownFinding[] {
    return findingsAtCursor(this.view);
  }

  /** Each line with the answer beside it. */
  lines(): readonly { readonly text: string; readonly shown: string; readonly row: Row | null }[] {
    const answers = shownAnswers(this.view);
    return Array.from({ length: this.view.state.doc.lines }, (_, at) => {
      const { text, from } = this.view.state.doc.line(at + 1);
      return { text, ...(answers.get(from) ?? { shown: "", row: null }) };
    });
  }

  /** The selected lines, all where nothing is selected, with their answers as a table for a spreadsheet. */
  table(): string {
    const {
      doc,
      selection: { main },
    } = this.view.state;
    const [first, last] = main.empty ? [1, doc.lines] : [doc.lineAt(main.from).number, doc.lineAt(main.to).number];
    return tabbed(this.lines().slice(first - 1, last));
  }

  /** Answers and findings of the shown document, placed where their text is by now. */
  hear(message: Extract<FromWorker, { kind: "answers" | "findings" }>): void {
    if (message.kind === "answers") this.unanswered = this.unanswered.filter(({ version }) => version > message.version);
    const [first, ...others] = this.unanswered;
    const since = first ? others.reduce((all, { changes }) => all.compose(changes), first.changes) : null;
    if (message.kind === "findings") {
      if (message.findings) showFindings(this.view, message.findings, since);
    } else if (message.said.length > 0 || message.whole) showAnswers(this.view, message.said, message.whole, since);
  }

  private freshState(text: string): EditorState {
    return editorState(text, (update) => this.onUpdate(update), {
      readOut: this.events.readOut,
      pointed: this.events.pointed,
      complete: async (offset): Promise<Completions | null> => {
        const reply = await this.core.ask("completion", this.path, offset);
        return reply.about === "completion" ? reply.value : null;
      },
      help: async (offset): Promise<Help | null> => {
        const reply = await this.core.ask("help", this.path, offset);
        return reply.about === "help" ? reply.value : null;
      },
      goToDeclaration: (offset) => void this.goToDeclaration(offset),
      renameName: this.events.renameName,
      format: () => void this.format(),
      undoWhole: this.undoWhole,
    });
  }

  async goToDeclaration(offset = this.cursor): Promise<void> {
    const reply = await this.core.ask("declaration", this.path, offset);
    if (reply.about === "declaration" && reply.value) this.events.goTo(reply.value);
  }

  async format(): Promise<void> {
    const before = this.text;
    const reply = await this.core.ask("format", this.path, 0);
    if (reply.about === "format" && this.text === before) this.become(reply.value);
  }

  /** The number at the cursor, where it can be tried. */
  number(): Tried | null {
    const {
      state: {
        doc,
        selection: { main },
      },
    } = this.view;
    const { from, text } = doc.lineAt(main.head);
    const found = numberAt(text, main.head - from);
    if (!triedBlocks.test(this.headAbove(main.head))) return null;
    return found && { path: this.path, span: { from: from + found.from, to: from + found.to }, value: found.value, values: found.values };
  }

  /** The first line of the block that a place is in. */
  private headAbove(offset: number): string {
    const { doc } = this.view.state;
    for (let line = doc.lineAt(offset); ; line = doc.line(line.number - 1))
      if (line.number === 1 || /^[^\s>#/]/.test(line.text)) return line.text;
  }

  /** Puts another value in place of the number at the cursor. A run of steps is one step for undo. */
  takeNumber(value: number): void {
    const at = this.number();
    if (!at) return;
    const { view } = this;
    // The run goes on while nothing else was typed: what it did before is taken back, and done anew from where it began.
    if (this.stepped?.doc === view.state.doc && this.stepped.from === at.span.from) undo(view);
    const now = this.number();
    if (!now) return;
    const insert = String(value);
    view.dispatch({
      changes: { ...now.span, insert },
      selection: { anchor: now.span.from + insert.length },
      userEvent: "input.replace",
      annotations: isolateHistory.of("full"),
    });
    this.stepped = { doc: view.state.doc, from: now.span.from };
    this.events.atNumber(this.number());
  }

  private readonly onNumberKey = (event: KeyboardEvent): void => {
    if (!event.altKey || !event.shiftKey || event.ctrlKey || event.metaKey) return;
    const at = this.number();
    const value =
      event.key === "ArrowUp"
        ? (at?.value ?? 0) + 1
        : event.key === "ArrowDown"
          ? (at?.value ?? 0) - 1
          : event.key.toLowerCase() === "b"
            ? this.events.bestNumber()
            : null;
    if (!at || value === null || value < Math.min(...at.values)) return;
    event.preventDefault();
    event.stopImmediatePropagation();
    this.takeNumber(value);
  };

  private onUpdate({ docChanged, selectionSet, changes, state }: ViewUpdate): void {
    const { path } = this;
    if (docChanged) {
      const edits: TextEdit[] = [];
      changes.iterChanges((from, to, _fromB, _toB, text) => edits.push({ from, to, text: text.toString() }));
      this.version += 1;
      this.unanswered.push({ version: this.version, changes });
      this.core.tell({ kind: "edit", path, edits, version: this.version });
      this.events.typed(path, () => (this.path === path ? this.text : (this.states.get(path)?.doc.toString() ?? "")));
    } else if (selectionSet) this.moved(state.selection.main.head);
    if (docChanged || selectionSet) this.tellNumber();
  }

  /** When the hand rests: no key waits for a look at its number. */
  private tellNumber(): void {
    clearTimeout(this.resting);
    this.resting = setTimeout(() => this.events.atNumber(this.number()), restMs);
  }

  /** Cells of a spreadsheet have tabs between them in each of several lines. */
  private onPaste(event: ClipboardEvent): void {
    const text = event.clipboardData?.getData("text/plain") ?? "";
    const lines = text.trimEnd().split(/\r?\n/);
    if (lines.length < 2 || !lines.every((line) => line.includes("\t"))) return;
    event.preventDefault();
    event.stopImmediatePropagation();
    const { path } = this;
    const put = (words: string): void => {
      if (this.path !== path) return;
      const { from, to } = this.view.state.selection.main;
      const insert = from > this.view.state.doc.lineAt(from).from && words.startsWith("ability") ? `\n${words}` : words;
      this.view.dispatch({
        changes: { from, to, insert },
        selection: { anchor: from + insert.length },
        userEvent: "input.paste",
        annotations: isolateHistory.of("full"),
      });
    };
    this.events.pastedTable(text, put, () => put(text));
  }

  private moved(offset: number): void {
    this.core.tell({ kind: "cursor", path: this.path, offset });
    this.atLine(offset);
  }

  private atLine(offset: number): void {
    const { from, to } = this.view.state.doc.lineAt(offset);
    this.events.atLine(from, to);
  }
}
