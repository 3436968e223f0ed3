import { html, LitElement, type TemplateResult } from "lit";
import { customElement, property } from "lit/decorators.js";
import { narrow } from "../editor/answers.js";
import type { SideBySide } from "../editor/side-by-side.js";

/** Two texts of one document: somebody else's and ours. Tells `resolve` with the text that is to stand. */
@customElement("rota-conflict")
export class RotaConflict extends LitElement {
  @property() path = "";
  @property({ attribute: false }) theirs: string | null = null;
  @property() mine = "";
  private shown: SideBySide | null = null;
  private readonly narrow = window.matchMedia(narrow).matches;

  override createRenderRoot(): HTMLElement {
    return this;
  }

  override firstUpdated(): void {
    void this.show();
  }

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    this.shown?.close();
  }

  private async show(): Promise<void> {
    const { inOneColumn, sideBySide } = await import("../editor/side-by-side.js");
    const parent = this.querySelector<HTMLElement>(".both");
    if (parent && this.isConnected)
      this.shown = (this.narrow ? inOneColumn : sideBySide)(parent, this.theirs ?? "", this.mine, (text) =>
        this.dispatchEvent(new CustomEvent("retyped", { detail: text, bubbles: true })),
      );
  }

  override render(): TemplateResult {
    return html`
      <h2>${this.path} has two texts</h2>
      <p>${this.theirs === null ? "Somebody else took this document away while you were writing in it." : "Somebody else wrote in this document while you did. Nothing was overwritten."} ${this.narrow ? "Where the two differ, theirs stands struck out above yours" : "On the left stands theirs, on the right yours"}: take over what you need, then say what is to stand.</p>
      <p class="buttons">
        <button type="button" @click=${() => this.resolve(this.shown?.text() ?? this.mine)}>${this.narrow ? "Keep what stands here" : "Keep what stands at the right"}</button>
        <button type="button" @click=${() => this.dispatchEvent(new CustomEvent("later", { bubbles: true }))}>Go on writing, decide later</button>
        <button type="button" ?disabled=${this.theirs === null} @click=${() => this.resolve(this.theirs ?? "")}>Take theirs whole</button>
      </p>
      <div class="both"></div>`;
  }

  private resolve(text: string): void {
    this.dispatchEvent(new CustomEvent("resolve", { detail: text, bubbles: true }));
  }
}
