import { html, LitElement, nothing, type TemplateResult } from "lit";
import { customElement, state } from "lit/decorators.js";
import { canShare, save, share } from "./document-actions.js";
import type { CardPages } from "./protocol.js";

/** A plan's cards over the page: to look at, to print, to send as one file. */
@customElement("rota-cards")
export class CardSheet extends LitElement {
  @state() private pages: CardPages | null = null;
  @state() private spelt = false;

  override createRenderRoot(): HTMLElement {
    return this;
  }

  show(pages: CardPages): void {
    this.pages = pages;
    void this.updateComplete.then(() => this.querySelector("dialog")?.showModal());
  }

  override render(): TemplateResult {
    const { pages } = this;
    const file = `${pages?.plan ?? ""} cards.html`;
    return html`<dialog aria-label="Cards of ${pages?.plan ?? ""}" @close=${() => (this.pages = null)}>
      <p class="do"><button type="button" @click=${this.print}>Print</button><button type="button" @click=${() => save(file, this.page, "text/html")}>Keep as one file</button>
        ${canShare() ? html`<button type="button" @click=${() => void share(file, this.page, "text/html")}>Share</button>` : nothing}
        <label class="choice"><input type="checkbox" .checked=${this.spelt} @change=${() => (this.spelt = !this.spelt)} /> every turn spelt out</label>
        <button type="button" @click=${() => this.querySelector("dialog")?.close()}>Close</button></p>
      ${pages?.simpler ? html`<p class="quiet">${pages.simpler}</p>` : nothing}
      ${pages === null ? nothing : html`<iframe title="Cards of ${pages.plan}" sandbox="allow-same-origin allow-modals" srcdoc=${this.page}></iframe>`}
    </dialog>`;
  }

  private get page(): string {
    return (this.spelt ? this.pages?.spelt : this.pages?.page) ?? "";
  }

  private readonly print = (): void => this.querySelector("iframe")?.contentWindow?.print();
}
