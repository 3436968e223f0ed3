import { html, LitElement, nothing, type TemplateResult } from "lit";
import { customElement, property } from "lit/decorators.js";
import type { DocumentCount } from "./protocol.js";

/** The notebook's documents with the number of findings on each. Tells `choose` with the path. */
@customElement("rota-documents")
export class DocumentList extends LitElement {
  @property({ attribute: false }) paths: readonly string[] = [];
  @property({ attribute: false }) counts: ReadonlyMap<string, DocumentCount> = new Map();
  @property() chosen = "";

  override createRenderRoot(): HTMLElement {
    return this;
  }

  override render(): TemplateResult {
    return html`<ul>${this.paths.map((path) => this.row(path))}</ul>`;
  }

  private row(path: string): TemplateResult {
    const count = this.counts.get(path);
    const errors = count?.errors ?? 0;
    const warnings = count?.warnings ?? 0;
    const words = [errors ? `${errors} error${errors === 1 ? "" : "s"}` : "", warnings ? `${warnings} warning${warnings === 1 ? "" : "s"}` : ""].filter(Boolean).join(", ");
    return html`<li>
      <button type="button" aria-current=${path === this.chosen ? "page" : nothing} @click=${() => this.choose(path)}>
        <span class="name">${path.replace(/\.rota$/, "")}</span>
        ${words ? html`<span class="count" title=${words}>${errors ? html`<b aria-hidden="true">✕ ${errors}</b>` : nothing}${warnings ? html`<span aria-hidden="true">△ ${warnings}</span>` : nothing}<span class="unseen">, ${words}</span></span>` : nothing}
      </button>
    </li>`;
  }

  private choose(path: string): void {
    this.dispatchEvent(new CustomEvent("choose", { detail: path, bubbles: true }));
  }
}
