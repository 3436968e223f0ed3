import { html, LitElement, nothing, type TemplateResult } from "lit";
import { customElement, property, state } from "lit/decorators.js";
import { counted } from "../0-base/quantity.js";
import { type Document, nameOf } from "../1-text/document.js";
import { type Found, found } from "../7-view/text-search.js";
import type { DocumentCount } from "./protocol.js";

/**
 * The notebook's documents with the number of findings on each, and a search through their texts. Tells `choose` with a
 * path, `place` with a path and an offset, `begin` where a new document is wanted.
 */
@customElement("rota-documents")
export class DocumentList extends LitElement {
  @property({ attribute: false }) paths: readonly string[] = [];
  @property({ attribute: false }) counts: ReadonlyMap<string, DocumentCount> = new Map();
  @property() chosen = "";
  @property({ attribute: false }) documents: () => readonly Document[] = () => [];
  @state() private sought = "";

  override createRenderRoot(): HTMLElement {
    return this;
  }

  override render(): TemplateResult {
    return html`
      <label class="search"><span class="unseen">Search the notebook</span><input type="search" placeholder="Search" .value=${this.sought} @input=${this.onSearch} @keydown=${this.onKey} /></label>
      ${this.sought.trim() === "" ? html`<ul>${this.paths.map((path) => this.row(path))}</ul><button type="button" class="begin" @click=${() => this.tell("begin", null)}>New document</button>` : this.results()}`;
  }

  private row(path: string): TemplateResult {
    const count = this.counts.get(path);
    const errors = count?.errors ?? 0;
    const warnings = count?.warnings ?? 0;
    const words = [errors ? counted(errors, "error") : "", warnings ? counted(warnings, "warning") : ""].filter(Boolean).join(", ");
    return html`<li>
      <button type="button" aria-current=${path === this.chosen ? "page" : nothing} @click=${() => this.tell("choose", path)}>
        <span class="name">${nameOf(path)}</span>
        ${words ? html`<span class="count" title=${words}>${errors ? html`<b aria-hidden="true">✕${errors}</b>` : nothing}${warnings ? html`<span aria-hidden="true">△${warnings}</span>` : nothing}<span class="unseen">, ${words}</span></span>` : nothing}
      </button>
    </li>`;
  }

  private results(): TemplateResult {
    const { places, more } = found(this.documents(), this.sought);
    return html`<p class="quiet" role="status">${counted(places.length, "line")}${more ? " and more" : ""}</p>
      <ul class="results">${places.map((place) => this.result(place))}</ul>`;
  }

  private result({ path, line, text, from, to, offset }: Found): TemplateResult {
    return html`<li><button type="button" @click=${() => this.tell("place", { path, span: { from: offset, to: offset } })}><small>${nameOf(path)} ${line}</small><span>${text.slice(0, from)}<mark>${text.slice(from, to)}</mark>${text.slice(to)}</span></button></li>`;
  }

  private readonly onSearch = ({ target }: Event): void => {
    if (target instanceof HTMLInputElement) this.sought = target.value;
  };

  private readonly onKey = (event: KeyboardEvent): void => {
    if (event.key === "Escape") this.sought = "";
    if (event.key !== "Enter") return;
    // The place takes the focus: the key is not for it.
    event.preventDefault();
    this.querySelector<HTMLElement>(".results button")?.click();
  };

  private tell(type: string, detail: unknown): void {
    this.dispatchEvent(new CustomEvent(type, { detail, bubbles: true }));
  }
}
