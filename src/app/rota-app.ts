import { html, LitElement, nothing, type TemplateResult } from "lit";
import { keyed } from "lit/directives/keyed.js";
import { customElement, state } from "lit/decorators.js";
import { type Document, openedFirst } from "../1-text/document.js";
import { type Explanation, sentenceOf } from "../7-view/answer.js";
import type { FirstStep } from "../7-view/first-steps.js";
import type { FloorPlan, Mark } from "../7-view/floor.js";
import type { Place } from "../7-view/name-help.js";
import type { WeekPicture } from "../7-view/week-picture.js";
import type { Picture } from "../7-view/picture.js";
import { askedFor, parcelIn } from "./address.js";
import type { Core } from "./core.js";
import * as actions from "./document-actions.js";
import * as faces from "./faces.js";
import type { OpenedHome } from "./homes/open-home.js";
import { Notebook, type Notice } from "./notebook/notebook.js";
import { caution } from "../7-view/cautions.js";
import { answerItems, putAway, type Showable } from "./put-away.js";
import { printed } from "./print.js";
import type { DocumentCount, FromWorker } from "./protocol.js";
import type { PlanIdeas } from "./plan-ideas.js";
import { RotaAsk } from "./rota-ask.js";
import { documentItems, textItems } from "./menus.js";
import type { ShownFinding } from "../editor/findings.js";
import type { KeepReceived } from "./rota-received.js";
import * as sending from "./sending.js";
import { Sheet } from "./sheet.js";
import "./elements.js";
import { updateNotice } from "./update.js";
import type { Beginning, FirstMinute } from "./first-minute.js";
import { type NumberTrial, type Tried } from "./number-trial.js";
import { WeekOrders } from "./week-orders.js";

/** How long word of what was done stands. */
const passingMs = 12_000;

/** The notebook: documents, the text with its answers, the picture of the plan at the cursor. */
@customElement("rota-app")
export class RotaApp extends LitElement {
  @state() private counts: ReadonlyMap<string, DocumentCount> = new Map();
  @state() private chosen = "";
  @state() private picture: Picture | null = null;
  @state() private week: WeekPicture | null = null;
  @state() private event = "";
  @state() private plans: readonly string[] = [];
  @state() private detail: Explanation | null = null;
  @state() private pointed: Explanation | null = null;
  /** The line of the cursor or the pointer, from the start of the pictured plan. */
  @state() private line = { from: -1, to: -1 };
  @state() private findings: readonly ShownFinding[] = [];
  @state() private notices: readonly Notice[] = [];
  @state() private unseen: ReadonlySet<Showable> = putAway();
  /** The document whose two texts stand side by side instead of the editor: only when the coach asks for it. */
  @state() private comparing: string | null = null;
  @state() private tab: "documents" | "text" | "picture" = "text";
  @state() private tried: Tried | null = null;
  /** What the notebook lacks for its first plan; undefined while nobody has asked, null once it has one. */
  @state() private step: FirstStep | null | undefined;
  @state() private suggested: string | null = null;
  private notebook: Notebook | null = null;
  private sheet: Sheet | null = null;
  private pictureFrom = 0;

  constructor(
    private readonly core: Core,
    private readonly opened: Promise<OpenedHome>,
  ) {
    super();
    core.hear = (message) => this.hear(message);
  }

  override createRenderRoot(): HTMLElement {
    return this;
  }

  override firstUpdated(): void {
    const parent = this.querySelector<HTMLElement>(".sheet");
    if (!parent) return;
    this.sheet = new Sheet(parent, this.core, {
      typed: (path, read) => this.onTyped(path, read),
      goTo: (place) => this.goTo(place),
      renameName: (offset) => this.act((work) => actions.renameName(work, offset)),
      pointed: (offset) => void this.point(offset),
      atLine: (from, to) => (this.line = { from: from - this.pictureFrom, to: to - this.pictureFrom }),
      pastedTable: (text, put, otherwise) => this.act((work) => sending.takeTable(work, text, put, otherwise)),
      atNumber: (tried) => (this.tried = tried),
      bestNumber: () => this.querySelector<NumberTrial>("rota-trial")?.best ?? null,
      readOut: () => (this.detail ? sentenceOf(this.detail) : "No answer on this line"),
    });
    window.addEventListener("hashchange", () => {
      const [asked, carried] = [askedFor(), parcelIn()];
      if (carried !== null) this.act((work) => sending.openParcel(work, carried));
      else if (asked !== this.chosen && this.notebook?.paths().includes(asked)) this.show(asked);
    });
    window.addEventListener("keydown", (event) => {
      if (!event.altKey || !event.shiftKey || event.code !== "KeyN" || !this.step) return;
      event.preventDefault();
      this.querySelector<FirstMinute>("rota-first")?.focus();
    });
    this.addEventListener("dragover", (event) => event.dataTransfer?.types.includes("Files") && event.preventDefault());
    this.addEventListener(
      "drop",
      (event) => {
        const file = event.dataTransfer?.files[0];
        if (!file) return;
        // Before the editor, which would put a file's text where it was dropped.
        event.preventDefault();
        event.stopPropagation();
        this.act((work) => sending.takeFile(work, file));
      },
      { capture: true },
    );
    window.addEventListener("pagehide", () => this.notebook?.settleAll());
    window.addEventListener("beforeprint", () =>
      this.querySelector(".print")?.replaceChildren(
        printed(this.chosen, this.sheet?.lines() ?? [], this.picture ? this.querySelector("rota-lanes") : null),
      ),
    );
    void this.open();
  }

  private async open(): Promise<void> {
    const { home, listed, notices, drafts, left, later, lastKnown, copies } = await this.opened;
    const notebook = new Notebook(home, drafts, {
      replaced: (path, text) => (path === this.chosen ? this.sheet?.become(text) : this.core.tell({ kind: "replace", path, text })),
      moved: (path, to) => this.onMoved(path, to),
      removed: (path) => this.core.tell({ kind: "remove", path }),
      changed: () => this.requestUpdate(),
      told: (notice) => this.tell(notice),
    });
    this.notebook = notebook;
    notebook.open(listed, left, lastKnown);
    notices.forEach((notice) => this.tell(notice));
    const compare = async (): Promise<void> => {
      const documents = document.visibilityState === "hidden" ? null : await notebook.compareWithHome();
      if (documents) copies.keep(documents);
    };
    const look = (): void => void setTimeout(() => void compare().finally(look), home.lookMs);
    look();
    window.addEventListener("focus", () => void compare());
    const path = openedFirst(this.notebook.paths(), askedFor());
    // What came in the address is shown over the notebook, which stands as it was.
    const carried = parcelIn();
    this.show(path);
    if (carried !== null) this.act((work) => sending.openParcel(work, carried));
    const read = listed.ok ? listed.documents.find((one) => one.path === path) : undefined;
    if (listed.ok && listed.said && read?.text === this.notebook.textOf(path))
      this.sheet?.hear({ kind: "answers", path, version: 0, whole: true, said: listed.said });
    later((found) => notebook.bringBackLate(found));
    // The first screen is painted before the worker takes a processor of its own.
    requestAnimationFrame(() => setTimeout(() => this.core.start()));
  }

  private readonly documents = (): readonly Document[] => this.notebook?.documents() ?? [];

  override render(): TemplateResult {
    const { notebook, sheet, documents } = this;
    const theirs = notebook?.theirsOf(this.chosen);
    const comparing = theirs !== undefined && this.comparing === this.chosen;
    return html`
      <header>
        <h1><svg viewBox="0 0 24 24" width="22" height="22" aria-hidden="true"><path d="M3 7h7M3 12h18M3 17h7" /><circle cx="14" cy="7" r="3" /><circle cx="14" cy="17" r="3" /></svg> Rotaline</h1>
        <p class="home">${notebook?.home.name}<span role="status">${notebook ? (notebook.allSaved() ? "saved" : "saving…") : ""}</span></p>
      </header>
      <div class="notices" role="status">${theirs !== undefined && !comparing ? this.twoTexts() : nothing}${this.notices.map((notice) => this.notice(notice))}</div>
      <main class="show-${this.tab}" data-hidden=${[...this.unseen].join(" ")}>
        <nav aria-label="Documents">
          <rota-documents .paths=${notebook?.paths() ?? []} .counts=${this.counts} .chosen=${this.chosen} .documents=${documents}
            @choose=${this.onChoose} @place=${({ detail }: CustomEvent<Place>) => this.goTo(detail)} @begin=${() => this.act(actions.begin)}></rota-documents>
        </nav>
        <section class="text" aria-label="Text and answers">
          <div class="head"><h2>${this.chosen || "No document"}</h2>${this.menus()}</div>
          <div class="sheet" ?hidden=${comparing}></div>
          ${this.step && !comparing ? html`<rota-first .step=${this.step} ?empty=${(sheet?.text ?? "").trim() === ""} .suggested=${this.suggested} @put=${this.onPut} @demo=${() => this.act(sending.takeDemo)} @file=${() => this.act(sending.openFile)} @wanted=${this.onWanted}></rota-first>` : nothing}
          ${
            comparing
              ? keyed(`${this.chosen}\n${theirs?.version ?? ""}`, this.conflict(theirs?.text ?? null))
              : html`<rota-detail class="detail" tabindex="0" role="region" aria-label="How the answer came about" .explanation=${this.pointed ?? this.detail} .findings=${this.findings}></rota-detail>`
          }
        </section>
        <aside aria-label="Picture of the plan" @go=${this.onGo} @light=${({ detail }: CustomEvent<number | null>) => this.sheet?.light(detail === null ? null : this.pictureFrom + detail)}>
          <rota-room></rota-room>
          ${this.week ? html`<rota-week .picture=${this.week} .line=${this.line}></rota-week>` : html`<rota-lanes .picture=${this.picture} .line=${this.line}></rota-lanes>`}
          <rota-trial .tried=${this.tried} .plan=${this.picture?.name ?? ""} .documents=${documents} @take=${({ detail }: CustomEvent<number>) => sheet?.takeNumber(detail)}></rota-trial>
          <rota-lessons ?shown=${(this.picture?.seen.length ?? 0) > 0} .documents=${documents} @insert=${this.onInsert}></rota-lessons>
          <rota-matters .plan=${this.picture?.name ?? ""} .documents=${documents}></rota-matters>
          <rota-orders .week=${this.week?.name ?? ""} .documents=${documents} @reorder=${this.onReorder}></rota-orders>
          <rota-ideas .event=${this.event} .plans=${this.plans} .documents=${documents} @insert=${this.onInsert} @proposed=${({ detail }: CustomEvent<string>) => (this.suggested = detail)}></rota-ideas>
          <p class="caution">${caution}</p>
        </aside>
      </main>
      <nav class="tabs" aria-label="Part of the page">${(["documents", "text", "picture"] as const).map((tab) => html`<button type="button" aria-pressed=${tab === this.tab} @click=${() => (this.tab = tab)}>${tab === "text" ? "writing" : tab}</button>`)}</nav>
      <rota-ask></rota-ask>
      <rota-cards></rota-cards>
      <rota-send></rota-send>
      <rota-received @keep=${({ detail }: CustomEvent<KeepReceived>) => this.act((work) => sending.keepReceived(work, detail))} @left=${() => this.show(this.chosen)}></rota-received>
      <rota-clock .retime=${this.retime} .documents=${documents} @log=${this.onInsert}></rota-clock>
      <div class="print" aria-hidden="true"></div>
    `;
  }

  /** A text of somebody else stands against ours: said above the editor, which keeps the hand that types. */
  private twoTexts(): TemplateResult {
    const look = (): void => {
      this.notebook?.settleAll();
      this.comparing = this.chosen;
    };
    return html`<p class="notice">Somebody else changed the same place of ${this.chosen}. Your text is kept in this browser; nothing was overwritten.<span><button type="button" @click=${look}>Look at both</button></span></p>`;
  }

  private conflict(theirs: string | null): TemplateResult {
    const path = this.chosen;
    const close = (): void => {
      this.comparing = null;
      this.sheet?.become(this.notebook?.textOf(path) ?? "");
    };
    const resolve = ({ detail }: CustomEvent<string>): void => {
      this.comparing = null;
      this.notebook?.resolve(path, detail);
    };
    return html`<rota-conflict .path=${path} .theirs=${theirs} .mine=${this.notebook?.textOf(path) ?? ""}
      @retyped=${({ detail }: CustomEvent<string>) => this.notebook?.write(path, detail)} @later=${close} @resolve=${resolve}></rota-conflict>`;
  }

  private notice(notice: Notice): TemplateResult {
    const drop = (): void => void (this.notices = this.notices.filter((other) => other !== notice));
    const run = (): void => {
      drop();
      notice.action?.run();
    };
    return html`<p class="notice">${notice.text}<span>${notice.action ? html`<button type="button" @click=${run}>${notice.action.label}</button>` : nothing}<button type="button" aria-label="Close this notice" @click=${drop}>×</button></span></p>`;
  }

  private menus(): TemplateResult {
    const { sheet } = this;
    const items = documentItems({
      act: (run) => this.act(run),
      home: this.notebook?.home ?? null,
      picture: this.picture !== null,
      week: this.week !== null,
      cards: () => this.act((work) => faces.showCards(work, this, this.pictureFrom)),
      clock: () => this.act((work) => faces.openClock(work, this, this.pictureFrom)),
      calendar: () => this.calendar(),
    });
    return html`<rota-menu label="Document" .items=${items}></rota-menu><rota-menu label="Text" .items=${textItems(
      sheet,
      (run) => this.act(run),
      () => this.act((work) => faces.copyTable(work)),
    )}></rota-menu>
      <rota-menu label="Answers" .items=${answerItems(this.unseen, (unseen) => (this.unseen = unseen))}></rota-menu>`;
  }

  private act(run: (work: actions.Workplace) => unknown): void {
    const { notebook, sheet, core } = this;
    const ask = this.querySelector("rota-ask");
    if (notebook && sheet && ask instanceof RotaAsk)
      void run({ notebook, sheet, core, ask, show: (path) => this.show(path), tell: (notice) => this.tellOnce(notice) });
  }

  private tell(notice: Notice): void {
    this.notices = [...this.notices.filter(({ text }) => text !== notice.text), notice].slice(-3);
  }

  /** Word of what was just done: it leaves by itself where nothing can be done about it. */
  private tellOnce(notice: Notice): void {
    this.tell(notice);
    if (!notice.action) setTimeout(() => (this.notices = this.notices.filter((one) => one !== notice)), passingMs);
  }

  private readonly onChoose = ({ detail }: CustomEvent<string>): void => {
    this.show(detail);
    this.tab = "text";
    this.sheet?.focus();
  };

  private show(path: string): void {
    const { notebook, sheet } = this;
    if (!notebook || !sheet) return;
    this.chosen = path;
    history.replaceState(null, "", `#${encodeURIComponent(path)}`);
    sheet.open(path, notebook.documents());
  }

  private goTo({ path, span }: Place): void {
    if (path !== this.chosen) this.show(path);
    this.tab = "text";
    this.sheet?.go(span.from);
  }

  private onTyped(path: string, read: () => string): void {
    const { notebook, sheet } = this;
    if (!notebook || !sheet) return;
    if (path !== "") return notebook.typed(path, read);
    // Who types where no document is begins one.
    const begun = actions.freePath(notebook, "my plan");
    notebook.write(begun, sheet.text);
    this.onMoved("", begun);
    this.tell({ text: `This is ${begun} now. Rename it in the Document menu.` });
  }

  private onMoved(path: string, to: string): void {
    if (path !== this.chosen) return;
    this.chosen = to;
    history.replaceState(null, "", `#${encodeURIComponent(to)}`);
    this.sheet?.rename(to, this.documents());
  }

  private readonly onGo = ({ detail }: CustomEvent<number>): void => {
    this.tab = "text";
    this.sheet?.go(this.pictureFrom + detail);
  };

  private readonly onInsert = ({ detail }: CustomEvent<string>): void => {
    this.tab = "text";
    this.sheet?.append(detail);
  };

  private readonly onPut = ({ detail: { text, select } }: CustomEvent<Beginning>): void => {
    if (this.chosen === "" && this.notebook) {
      const path = actions.freePath(this.notebook, "my plan");
      this.notebook.write(path, "");
      this.show(path);
    }
    this.tab = "text";
    this.sheet?.append(text, select);
  };

  private readonly onWanted = ({ detail }: CustomEvent<string>): void => {
    this.suggested = null;
    this.event = detail;
    void this.updateComplete.then(() => this.querySelector<PlanIdeas>("rota-ideas")?.suggest());
  };

  /** Asks what the notebook lacks for its first plan, until it has one. */
  private async askStep(): Promise<void> {
    if (this.step === null && this.notebook?.paths().length !== 0) return;
    const reply = await this.core.ask("first step", this.chosen, 0);
    if (reply.about !== "first step") return;
    // Looked up when it is first wanted: most notebooks have a plan.
    if (reply.value) await import("./first-minute.js");
    this.step = reply.value;
    if (reply.value === null && this.suggested !== null)
      this.tell({ text: "That is a plan. Cards and the clock for it are in the Document menu." });
  }

  /** A week's block gives way to the same in another order, where it still stands as it was. */
  private readonly onReorder = ({ detail: { was, text } }: CustomEvent<{ readonly was: string; readonly text: string }>): void => {
    const { sheet } = this;
    const at = sheet?.text.indexOf(was) ?? -1;
    if (!sheet || at < 0) return this.tell({ text: "The week has changed meanwhile. Look for its order again." });
    this.tab = "text";
    sheet.become(sheet.text.slice(0, at) + text + sheet.text.slice(at + was.length));
  };

  private readonly retime = async (plan: string, marks: readonly Mark[]): Promise<FloorPlan | null> => {
    const reply = await this.core.ask("floor", this.chosen, 0, plan, { marks });
    return reply.about === "floor" ? reply.value : null;
  };

  private calendar(): void {
    const orders = this.querySelector("rota-orders");
    if (orders instanceof WeekOrders) orders.calendar();
  }

  private async point(offset: number | null): Promise<void> {
    const reply = offset === null ? null : await this.core.ask("explanation", this.chosen, offset);
    this.pointed = reply?.about === "explanation" ? reply.value : null;
  }

  private hear(message: Exclude<FromWorker, { kind: "reply" }>): void {
    if (message.path !== this.chosen) return;
    switch (message.kind) {
      case "picture":
        this.picture = message.picture;
        this.week = message.week;
        this.pictureFrom = message.blockFrom;
        this.event = message.event;
        this.plans = message.plans;
        return;
      case "explanation":
        this.detail = message.explanation;
        this.findings = this.sheet?.findings() ?? [];
        return;
      case "findings":
        void this.askStep();
        if (message.counts) this.counts = new Map(message.counts.map((count) => [count.path, count]));
        break;
      case "answers":
        // What keeps the page for later does not compete with its first answers.
        if (this.dataset.answered === undefined) updateNotice((notice) => this.tell(notice));
        if (message.whole) this.dataset.answered = message.path;
    }
    this.sheet?.hear(message);
  }
}
