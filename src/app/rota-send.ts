import { html, LitElement, nothing, type TemplateResult } from "lit";
import { unsafeHTML } from "lit/directives/unsafe-html.js";
import { customElement, state } from "lit/decorators.js";
import { mostInLink } from "../1-text/parcel.js";
import { codeOf, mostInCode } from "../7-view/code.js";
import { linkWith, onlyHere } from "./address.js";
import { canShare, save, share } from "./document-actions.js";
import type { Parcelled } from "./protocol.js";

interface Parts extends Parcelled {
  readonly path: string;
  readonly text: string;
}

/** The ways in which a document goes round: the file, a page of its own, a link, a code. Nothing is sent from here by itself. */
@customElement("rota-send")
export class RotaSend extends LitElement {
  @state() private parts: Parts | null = null;
  @state() private said = "";

  override createRenderRoot(): HTMLElement {
    return this;
  }

  show(parts: Parts): void {
    this.parts = parts;
    this.said = "";
    void this.updateComplete.then(() => this.querySelector("dialog")?.showModal());
  }

  override render(): TemplateResult {
    return html`<dialog aria-label="Send" @close=${() => (this.parts = null)}>${this.parts === null ? nothing : this.ways(this.parts)}</dialog>`;
  }

  private ways({ path, text, documents, parcel, page }: Parts): TemplateResult {
    const name = path.split("/").at(-1) ?? path;
    const pageName = name.replace(/\.rota$/, ".html");
    const link = linkWith(parcel);
    const others = documents.filter((one) => one !== path);
    return html`<h2>Send ${name}</h2>
      ${others.length > 0 ? html`<p class="quiet">Page, link and code carry what it needs as well: ${others.join(", ")}.</p>` : nothing}
      <h3>The file</h3>
      <p class="buttons"><button type="button" @click=${() => save(name, text, "text/plain")}>Keep the file</button>${canShare() ? html`<button type="button" @click=${() => void share(`${name}.txt`, text, "text/plain")}>Share the file</button>` : nothing}</p>
      <h3>A page of its own</h3>
      <p class="quiet">Text, answers, lanes and cards in one file that opens anywhere; Rotaline can open it again.</p>
      <p class="buttons"><button type="button" @click=${() => save(pageName, page, "text/html")}>Keep the page</button>${canShare() ? html`<button type="button" @click=${() => void share(pageName, page, "text/html")}>Share the page</button>` : nothing}</p>
      <h3>A link</h3>
      ${
        link.length > mostInLink
          ? html`<p>It comes to ${link.length} characters, and a link carries ${mostInLink}. Send the page or the file.</p>`
          : html`${onlyHere() ? html`<p>This Rotaline runs on your own machine, so its link opens here only. Send the page, or put Rotaline on a host.</p>` : nothing}
          <label>The plan is in the link itself, behind the #: no server gets to see it.<input name="value" readonly .value=${link} /></label>
          <p class="buttons"><button type="button" @click=${() => void this.copy(link)}>Copy the link</button></p>
          ${link.length > mostInCode ? html`<p>It is too long for a code: ${link.length} characters, and a code holds ${mostInCode}.</p>` : html`<details><summary>As a code for the wall</summary><div class="code">${unsafeHTML(codeOf(link) ?? "")}</div></details>`}`
      }
      <p class="wrong" role="status">${this.said}</p>
      <p class="buttons"><button type="button" @click=${() => this.querySelector("dialog")?.close()}>Close</button></p>`;
  }

  private async copy(link: string): Promise<void> {
    const copied = await navigator.clipboard.writeText(link).then(
      () => true,
      () => false,
    );
    this.said = copied ? "Copied." : "The browser does not let this page write to its clipboard: mark the link and copy it.";
  }
}
