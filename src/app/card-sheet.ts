import { html, LitElement, type TemplateResult } from "lit";
import { customElement, state } from "lit/decorators.js";
import { save } from "./document-actions.js";

/** A plan's cards over the page: to look at, to print, to keep as one file. */
@customElement("rota-cards")
export class CardSheet extends LitElement {
  @state() private page = "";
  private name = "";

  override createRenderRoot(): HTMLElement {
    return this;
  }

  /** Shows a page of cards. */
  show(name: string, page: string): void {
    this.name = name;
    this.page = page;
    void this.updateComplete.then(() => this.querySelector("dialog")?.showModal());
  }

  override render(): TemplateResult {
    return html`<dialog aria-label="Cards of ${this.name}" @close=${() => (this.page = "")}>
      <p class="do"><button type="button" @click=${this.print}>Print</button><button type="button" @click=${() => save(`${this.name} cards.html`, this.page, "text/html")}>Keep as one file</button><button type="button" @click=${() => this.querySelector("dialog")?.close()}>Close</button></p>
      ${this.page === "" ? "" : html`<iframe title="Cards of ${this.name}" sandbox="allow-same-origin allow-modals" srcdoc=${this.page}></iframe>`}
    </dialog>`;
  }

  private readonly print = (): void => this.querySelector("iframe")?.contentWindow?.print();
}
