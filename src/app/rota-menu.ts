import { html, LitElement, nothing, type TemplateResult } from "lit";
import { customElement, property, state } from "lit/decorators.js";

export interface MenuItem {
  readonly label: string;
  /** The key that does the same. */
  readonly key?: string;
  /** For a choice that is on or off. */
  readonly checked?: boolean;
  readonly run: () => void;
}

/** A button that shows a list of actions. Escape, or leaving it, closes it. */
@customElement("rota-menu")
export class RotaMenu extends LitElement {
  @property() label = "";
  @property({ attribute: false }) items: readonly MenuItem[] = [];
  @state() private open = false;

  override createRenderRoot(): HTMLElement {
    return this;
  }

  override connectedCallback(): void {
    super.connectedCallback();
    this.addEventListener("keydown", (event) => this.onKey(event));
    this.addEventListener("focusout", ({ relatedTarget }) => {
      if (!(relatedTarget instanceof Node && this.contains(relatedTarget))) this.open = false;
    });
  }

  override render(): TemplateResult {
    return html`<button type="button" class="opens" aria-expanded=${this.open} @click=${() => (this.open = !this.open)}>${this.label}</button>
      ${this.open ? html`<ul>${this.items.map((item) => this.item(item))}</ul>` : nothing}`;
  }

  private item({ label, key, checked, run }: MenuItem): TemplateResult {
    return html`<li><button type="button" aria-pressed=${checked ?? nothing} @click=${() => this.choose(run, checked === undefined)}>${label}${key ? html`<kbd>${key}</kbd>` : nothing}</button></li>`;
  }

  private choose(run: () => void, closes: boolean): void {
    if (closes) this.open = false;
    run();
  }

  private onKey(event: KeyboardEvent): void {
    const buttons = [...this.querySelectorAll<HTMLElement>("button")];
    const at = buttons.findIndex((button) => button === document.activeElement);
    const step = event.key === "ArrowDown" ? 1 : event.key === "ArrowUp" ? -1 : 0;
    if (event.key === "Escape" && this.open) {
      this.open = false;
      buttons[0]?.focus();
      event.stopPropagation();
    } else if (step !== 0 && this.open) {
      buttons[(at + step + buttons.length) % buttons.length]?.focus();
      event.preventDefault();
    }
  }
}
