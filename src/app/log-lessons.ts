import { html, LitElement, nothing, type PropertyValues, type TemplateResult } from "lit";
import { customElement, property, state } from "lit/decorators.js";
import type { Document } from "../1-text/document.js";
import type { LearntPage } from "../7-view/learnt.js";
import { type LearntRow, learntTable } from "../7-view/learnt-table.js";
import { Searcher } from "./searcher.js";

/**
 * What the logs say of abilities: rows from → to with how sure and why, taken one by one, by athlete or whole. Tells
 * `insert` with a table's text.
 */
@customElement("rota-lessons")
export class LogLessons extends LitElement {
  /** Whether a log is in the picture. */
  @property({ type: Boolean }) shown = false;
  @property({ attribute: false }) documents: () => readonly Document[] = () => [];
  @state() private page: LearntPage | null = null;
  @state() private looking = false;
  @state() private left: ReadonlySet<LearntRow> = new Set();
  private readonly searcher = new Searcher((message) => {
    if (message.kind === "learnt") [this.page, this.looking, this.left] = [message.page, false, new Set()];
  });

  override createRenderRoot(): HTMLElement {
    return this;
  }

  override willUpdate(changed: PropertyValues<this>): void {
    if (changed.has("shown")) [this.page, this.looking] = [null, false];
  }

  override render(): TemplateResult | typeof nothing {
    if (!this.shown) return nothing;
    const { page } = this;
    return html`<section aria-label="What the logs say">
      <h3>What the logs say about abilities</h3>
      ${page === null ? html`<p class="buttons"><button type="button" ?disabled=${this.looking} @click=${this.look}>${this.looking ? "Looking…" : "Learn from the logs"}</button></p>` : this.found(page)}
    </section>`;
  }

  private found({ date, rows, notes }: LearntPage): TemplateResult {
    const taken = rows.filter((row) => !this.left.has(row));
    const athletes = [...new Set(rows.map(({ athlete }) => athlete))];
    return html`${notes.map((note) => html`<p class="quiet">${note}</p>`)}
      ${athletes.map((athlete) =>
        this.athlete(
          athlete,
          rows.filter((row) => row.athlete === athlete),
        ),
      )}
      ${rows.length > 0 ? html`<p class="buttons"><button type="button" ?disabled=${taken.length === 0} @click=${() => this.dispatchEvent(new CustomEvent("insert", { detail: learntTable(taken, date), bubbles: true }))}>Put the table into the document</button></p>` : nothing}`;
  }

  private athlete(name: string, rows: readonly LearntRow[]): TemplateResult {
    const all = rows.every((row) => !this.left.has(row));
    return html`<fieldset><legend><label><input type="checkbox" .checked=${all} @change=${() => this.take(rows, !all)} /> ${name}</label></legend>
      ${rows.map((row) => html`<label class="choice"><input type="checkbox" .checked=${!this.left.has(row)} @change=${() => this.take([row], this.left.has(row))} /><span>${row.words}</span></label>`)}</fieldset>`;
  }

  private take(rows: readonly LearntRow[], take: boolean): void {
    const left = new Set(this.left);
    for (const row of rows) take ? left.delete(row) : left.add(row);
    this.left = left;
  }

  private readonly look = (): void => {
    this.looking = true;
    this.searcher.ask({ kind: "learn", documents: this.documents() });
  };
}
