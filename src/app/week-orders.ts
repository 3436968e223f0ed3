import { html, LitElement, nothing, type TemplateResult } from "lit";
import { customElement, property, state } from "lit/decorators.js";
import { plain } from "../0-base/quantity.js";
import type { Document } from "../1-text/document.js";
import type { WeekIdea, WeekIdeas } from "../7-view/week-ideas.js";
import { save } from "./document-actions.js";
import type { FromSearch, ToSearch } from "./protocol.js";
import { Searcher } from "./searcher.js";

/** Orders for the week at the cursor, and its calendar file. Tells `reorder` with the block as it was and as it shall be. */
@customElement("rota-orders")
export class WeekOrders extends LitElement {
  @property() week = "";
  @property({ attribute: false }) documents: () => readonly Document[] = () => [];
  @state() private found: WeekIdeas | null = null;
  @state() private said = "";
  @state() private lines: readonly string[] = [];
  @state() private busy = false;
  /** The block that the orders are of. */
  private was = "";
  private readonly searcher = new Searcher((message) => this.hear(message));

  override createRenderRoot(): HTMLElement {
    return this;
  }

  override willUpdate(changed: Map<string, unknown>): void {
    if (!changed.has("week")) return;
    this.found = null;
    this.lines = [];
    this.said = "";
  }

  override render(): TemplateResult | typeof nothing {
    if (this.week === "") return nothing;
    return html`
      <h2>Orders for ${this.week}</h2>
      <p class="ask">
        ${this.busy ? html`<button type="button" @click=${this.stop}>Stop, keep what there is</button>` : html`<button type="button" @click=${this.look}>Find the best order</button>`}
        <button type="button" ?disabled=${this.busy} @click=${this.again}>Do second tries pay?</button>
        <button type="button" @click=${this.calendar}>Calendar file</button>
      </p>
      <p role="status" class="quiet">${this.said}</p>
      ${this.lines.map((line) => html`<p>${line}</p>`)}
      ${this.found?.faults.map((fault) => html`<p>${fault}</p>`)} ${this.found?.ideas.map((idea) => this.idea(idea))}
    `;
  }

  private idea({ kind, lost, days, reasons, text }: WeekIdea): TemplateResult {
    return html`<article>
      <h3>${plain(100 * lost)} % given away</h3>
      <p>${kind}</p>
      <ol>${days.map((day) => html`<li>${day}</li>`)}</ol>
      ${reasons.length > 0 ? html`<ul>${reasons.map((reason) => html`<li>${reason}</li>`)}</ul>` : nothing}
      ${text === null ? nothing : html`<button type="button" ?disabled=${this.busy} @click=${() => this.take(text)}>Put the week into this order</button>`}
    </article>`;
  }

  private take(text: string): void {
    this.dispatchEvent(new CustomEvent("reorder", { detail: { was: this.was, text }, bubbles: true }));
    this.found = null;
    this.said = "The week is in this order now. Ctrl+Z takes it back.";
  }

  private readonly look = (): void => this.ask({ kind: "orders", documents: this.documents(), week: this.week }, "Looking…");

  private readonly again = (): void => {
    this.lines = [];
    this.ask({ kind: "again", documents: this.documents(), week: this.week }, "Trying plans for the second try…");
  };

  readonly calendar = (): void => this.ask({ kind: "calendar", documents: this.documents(), week: this.week, atS: Date.now() / 1000 }, "");

  private readonly stop = (): void => this.searcher.stop();

  private ask(message: ToSearch, said: string): void {
    this.busy = message.kind === "orders";
    this.said = said;
    this.searcher.ask(message);
  }

  private hear(message: FromSearch): void {
    switch (message.kind) {
      case "orders":
        this.found = message.ideas;
        this.was = message.was;
        this.busy = !message.ideas.done;
        this.said = message.ideas.done
          ? "Every order that the limits allow was looked at or ruled out. How fast a body comes back is assumed: look at each before you use it."
          : `${message.ideas.steps.toLocaleString("en")} places tried…`;
        return;
      case "again":
        this.lines = message.lines;
        this.said = "";
        return;
      case "calendar":
        save(`${message.week}.ics`, message.text, "text/calendar");
        this.said = "The calendar file is downloaded. A second one moves what has moved.";
        return;
      case "failed":
        this.busy = false;
        this.said = message.reason;
    }
  }
}
