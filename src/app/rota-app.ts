import { ChangeSet } from "@codemirror/state";
import { EditorView, type ViewUpdate } from "@codemirror/view";
import { html, LitElement, nothing, type TemplateResult } from "lit";
import { customElement, state } from "lit/decorators.js";
import type { Document } from "../1-text/document.js";
import type { Picture } from "../7-view/picture.js";
import { showAnswers } from "../editor/answers.js";
import { editorState } from "../editor/editor.js";
import { showFindings } from "../editor/findings.js";
import { dropDraft, draftOf, keepDraft } from "./draft.js";
import { demo } from "./demo.js";
import { type Home, homeOfPage } from "./home.js";
import type { DocumentCount, Explanation, FromWorker, TextEdit, ToWorker } from "./protocol.js";
import "./document-list.js";
import "./lane-picture.js";
import "./plan-ideas.js";

const saveAfterMs = 300;

/** The notebook: documents, the text with its answers, the picture of the plan at the cursor. */
@customElement("rota-app")
export class RotaApp extends LitElement {
  @state() private paths: readonly string[] = [];
  @state() private counts: ReadonlyMap<string, DocumentCount> = new Map();
  @state() private chosen = "";
  @state() private picture: Picture | null = null;
  @state() private event = "";
  @state() private plans: readonly string[] = [];
  @state() private detail: Explanation | null = null;
  @state() private notice = "";
  @state() private saved = "";
  @state() private tab: "documents" | "text" | "picture" = "text";
  private readonly home: Home = homeOfPage(demo);
  private readonly worker = new Worker(new URL("./worker.ts", import.meta.url), { type: "module" });
  private readonly texts = new Map<string, string>();
  private readonly saving = new Map<string, number>();
  /** Changes of the shown document that the worker has not answered yet, by version. */
  private unanswered: { readonly version: number; readonly changes: ChangeSet }[] = [];
  private version = 0;
  private pictureFrom = 0;
  private view: EditorView | null = null;

  override createRenderRoot(): HTMLElement {
    return this;
  }

  override firstUpdated(): void {
    this.worker.addEventListener("message", ({ data }: MessageEvent<FromWorker>) => this.hear(data));
    const parent = this.querySelector<HTMLElement>(".sheet");
    if (parent) this.view = new EditorView({ parent });
    // The text inside takes the focus; the scroller is no stop of its own.
    this.view?.scrollDOM.removeAttribute("tabindex");
    window.addEventListener("pagehide", () => this.saveAll());
    this.home.load().then(
      (documents) => this.open(documents),
      (error: unknown) => (this.notice = error instanceof Error ? error.message : "The notebook cannot be read. Load the page again."),
    );
  }

  override render(): TemplateResult {
    return html`
      <header>
        <h1><svg viewBox="0 0 24 24" width="22" height="22" aria-hidden="true"><path d="M3 7h7M3 12h18M3 17h7" /><circle cx="14" cy="7" r="3" /><circle cx="14" cy="17" r="3" /></svg> Rotaline</h1>
        <p class="home">${this.home.name}<span role="status">${this.saved}</span></p>
      </header>
      ${this.notice ? html`<p class="notice" role="alert">${this.notice}</p>` : nothing}
      <main class="show-${this.tab}">
        <nav aria-label="Documents"><rota-documents .paths=${this.paths} .counts=${this.counts} .chosen=${this.chosen} @choose=${this.onChoose}></rota-documents></nav>
        <section class="text" aria-label="Text and answers">
          <h2>${this.chosen}</h2>
          <div class="sheet"></div>
          ${this.detailPart()}
        </section>
        <aside aria-label="Picture of the plan" @go=${this.onGo}><rota-lanes .picture=${this.picture}></rota-lanes>
          <rota-ideas .event=${this.event} .plans=${this.plans} .documents=${() => this.documents()} @insert=${this.onInsert}></rota-ideas>
          <p class="caution">A planning aid. The event's rules, the venue, a qualified coach and medical advice come first. Nobody holds or moves on through pain.</p></aside>
      </main>
      <nav class="tabs" aria-label="Part of the page">${(["documents", "text", "picture"] as const).map((tab) => html`<button type="button" aria-pressed=${tab === this.tab} @click=${() => (this.tab = tab)}>${tab}</button>`)}</nav>
    `;
  }

  private detailPart(): TemplateResult {
    const { detail } = this;
    return html`<div class="detail">${detail ? html`<p><b>${detail.shown}</b></p><p>${detail.explained}</p>` : html`<p class="quiet">Put the cursor on a line to see how its answer came about. Alt+A reads it out, F8 goes to the next finding.</p>`}</div>`;
  }

  private open(documents: readonly Document[]): void {
    for (const { path, text } of documents) {
      const draft = draftOf(path);
      this.texts.set(path, draft ?? text);
      if (draft !== null && draft !== text) {
        this.notice = `Text of ${path} that was not saved has been brought back.`;
        this.saveSoon(path);
      }
    }
    this.paths = [...this.texts.keys()];
    const asked = decodeURIComponent(location.hash.slice(1));
    const first = this.paths.find((path) => path === asked) ?? this.paths.find((path) => path === "breakwater.rota") ?? this.paths[0];
    if (first !== undefined) this.choose(first);
    else this.notice = "There is no .rota document here yet.";
  }

  private readonly onChoose = ({ detail }: CustomEvent<string>): void => {
    this.choose(detail);
    this.tab = "text";
    this.view?.focus();
  };

  private choose(path: string): void {
    this.chosen = path;
    this.version += 1;
    this.unanswered = [];
    history.replaceState(null, "", `#${encodeURIComponent(path)}`);
    this.view?.setState(editorState(this.texts.get(path) ?? "", (update) => this.onUpdate(update), { readOut: () => this.readOut(), pointed: () => undefined }));
    this.tell({ kind: "open", documents: [...this.texts].map(([at, text]) => ({ path: at, text })), path, version: this.version });
  }

  private readonly onGo = ({ detail }: CustomEvent<number>): void => {
    const { view } = this;
    if (!view) return;
    const at = Math.min(this.pictureFrom + detail, view.state.doc.length);
    this.tab = "text";
    view.dispatch({ selection: { anchor: at }, effects: EditorView.scrollIntoView(at, { y: "center" }) });
    view.focus();
  };

  private documents(): readonly Document[] {
    return this.paths.map((path) => ({ path, text: this.textOf(path) }));
  }

  /** Puts a plan's text at the end of the document, in one step that can be undone. */
  private readonly onInsert = ({ detail }: CustomEvent<string>): void => {
    const { view } = this;
    if (!view) return;
    const end = view.state.doc.length;
    const gap = end === 0 ? "" : view.state.doc.lineAt(end).length > 0 ? "\n\n" : "\n";
    this.tab = "text";
    view.dispatch({ changes: { from: end, insert: gap + detail }, selection: { anchor: end + gap.length }, scrollIntoView: true, userEvent: "input.complete" });
    view.focus();
  };

  private onUpdate(update: ViewUpdate): void {
    if (update.docChanged) {
      const edits: TextEdit[] = [];
      update.changes.iterChanges((from, to, _fromB, _toB, text) => edits.push({ from, to, text: text.toString() }));
      this.version += 1;
      this.unanswered.push({ version: this.version, changes: update.changes });
      this.tell({ kind: "edit", path: this.chosen, edits, version: this.version });
      this.saveSoon(this.chosen);
    }
    if (update.selectionSet && !update.docChanged) {
      this.tell({ kind: "cursor", path: this.chosen, offset: update.state.selection.main.head });
    }
  }

  private hear(message: FromWorker): void {
    if (message.path !== this.chosen || !this.view) return;
    if (message.kind === "picture") {
      this.picture = message.picture;
      this.pictureFrom = message.blockFrom;
      this.event = message.event;
      this.plans = message.plans;
      return;
    }
    if (message.kind === "explanation") {
      this.detail = message.explanation;
      return;
    }
    if (message.kind === "answers") this.unanswered = this.unanswered.filter(({ version }) => version > message.version);
    const [first, ...others] = this.unanswered;
    const since = first ? others.reduce((all, { changes }) => all.compose(changes), first.changes) : null;
    if (message.kind === "findings") {
      if (message.findings) showFindings(this.view, message.findings, since);
      if (message.counts) this.counts = new Map(message.counts.map((count) => [count.path, count]));
      return;
    }
    if (message.said.length > 0 || message.whole) showAnswers(this.view, message.said, message.whole, since);
    if (message.whole) this.dataset.answered = message.path;
  }

  /** What a screen reader is told of the cursor's line. */
  private readOut(): string {
    return this.detail ? `${this.detail.shown}. ${this.detail.explained}` : "No answer on this line";
  }

  private tell(message: ToWorker): void {
    this.worker.postMessage(message);
  }

  private saveSoon(path: string): void {
    window.clearTimeout(this.saving.get(path));
    this.saving.set(path, window.setTimeout(() => void this.save(path), saveAfterMs));
    this.saved = "";
  }

  private textOf(path: string): string {
    const text = path === this.chosen && this.view && this.view.state.doc.length > 0 ? this.view.state.doc.toString() : this.texts.get(path);
    return text ?? "";
  }

  private async save(path: string): Promise<void> {
    this.saving.delete(path);
    const text = this.textOf(path);
    this.texts.set(path, text);
    keepDraft(path, text);
    const kept = await this.home.save(path, text);
    if (kept.ok) {
      dropDraft(path);
      this.saved = "saved";
    } else this.notice = kept.reason;
  }

  private saveAll(): void {
    for (const path of this.saving.keys()) {
      keepDraft(path, this.textOf(path));
      void this.save(path);
    }
  }
}
