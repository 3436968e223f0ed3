import { html, LitElement, nothing, type TemplateResult } from "lit";
import { customElement, state } from "lit/decorators.js";
import type { Document } from "../1-text/document.js";
import type { ReceivedDocument } from "./protocol.js";

/** What to do with documents that were received: put them in place of one's own, or beside them. */
export interface KeepReceived {
  readonly documents: readonly Document[];
  readonly replace: boolean;
}

/** Documents that came by a link, a page or a file, read-only beside one's own. Nothing is kept until `keep` is told. */
@customElement("rota-received")
export class RotaReceived extends LitElement {
  @state() private documents: readonly ReceivedDocument[] = [];
  @state() private from = "";
  @state() private at = 0;

  override createRenderRoot(): HTMLElement {
    return this;
  }

  /** `from`: where they came from, in words. */
  show(documents: readonly ReceivedDocument[], from: string): void {
    [this.documents, this.from, this.at] = [documents, from, 0];
    void this.updateComplete.then(() => this.querySelector("dialog")?.showModal());
  }

  override render(): TemplateResult {
    return html`<dialog aria-label="Received" @close=${this.onClose}>${this.documents.length === 0 ? nothing : this.view()}</dialog>`;
  }

  private view(): TemplateResult {
    const { documents, at } = this;
    const shown = documents[at];
    const differing = documents.filter(({ mine, text }) => mine !== null && mine !== text);
    const clashes = documents.flatMap((one) => one.clashes);
    return html`<h2>Received ${this.from}</h2>
      <p>Nothing of it is in your notebook yet. ${differing.length > 0 ? `You have ${differing.map(({ path }) => path).join(", ")} with another text.` : ""}</p>
      ${clashes.length > 0 ? html`<p>Your notebook has these names already: ${clashes.slice(0, 8).join(", ")}${clashes.length > 8 ? ` and ${clashes.length - 8} more` : ""}.</p>` : nothing}
      <p class="buttons">${
        differing.length > 0
          ? html`<button type="button" @click=${() => this.keep(false)}>Keep beside mine</button><button type="button" @click=${() => this.keep(true)}>Replace mine</button>`
          : html`<button type="button" @click=${() => this.keep(false)}>Keep</button>`
      }
        <button type="button" @click=${() => this.querySelector("dialog")?.close()}>Leave it</button></p>
      <p class="buttons" role="group" aria-label="Documents received">${documents.map(({ path, mine, text }, index) => html`<button type="button" aria-pressed=${index === at} @click=${() => (this.at = index)}>${path}: ${mine === null ? "new" : mine === text ? "the same as yours" : "yours differs"}</button>`)}</p>
      ${shown ? this.beside(shown) : nothing}`;
  }

  private beside({ path, lines, mine, text }: ReceivedDocument): TemplateResult {
    const differs = mine !== null && mine !== text;
    return html`<div class="received" tabindex="0" role="region" aria-label="Text of ${path}">
      <table><thead><tr><th scope="col">received</th><th scope="col">answers</th></tr></thead><tbody>${lines.map((line) => html`<tr><td>${line.text}</td><td>${line.shown}</td></tr>`)}</tbody></table>
      ${differs ? html`<table><thead><tr><th scope="col">yours</th></tr></thead><tbody>${mine.split("\n").map((line) => html`<tr><td>${line}</td></tr>`)}</tbody></table>` : nothing}
    </div>`;
  }

  private keep(replace: boolean): void {
    const detail: KeepReceived = {
      documents: this.documents.filter(({ mine, text }) => mine !== text).map(({ path, text }) => ({ path, text })),
      replace,
    };
    this.dispatchEvent(new CustomEvent("keep", { detail, bubbles: true }));
    this.querySelector("dialog")?.close();
  }

  private readonly onClose = (): void => {
    this.documents = [];
    this.dispatchEvent(new CustomEvent("left", { bubbles: true }));
  };
}
