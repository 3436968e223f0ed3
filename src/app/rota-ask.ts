import { html, LitElement, nothing, type TemplateResult } from "lit";
import { customElement, state } from "lit/decorators.js";

export interface Asked {
  readonly title: string;
  readonly label: string;
  readonly value: string;
  readonly action: string;
  readonly choices?: { readonly label: string; readonly options: readonly { readonly name: string; readonly says: string }[] };
  /** What is wrong with a value; null where nothing is. */
  readonly refuse: (value: string) => string | null;
}

/** Asks for a name, and where there is one for a choice, in a dialog. */
@customElement("rota-ask")
export class RotaAsk extends LitElement {
  @state() private asked: Asked | null = null;
  @state() private wrong = "";
  private done: (answer: { readonly value: string; readonly choice: string } | null) => void = () => undefined;

  override createRenderRoot(): HTMLElement {
    return this;
  }

  /** Null where the coach thinks better of it. */
  async ask(asked: Asked): Promise<{ readonly value: string; readonly choice: string } | null> {
    this.asked = asked;
    this.wrong = "";
    await this.updateComplete;
    this.querySelector("dialog")?.showModal();
    const input = this.querySelector<HTMLInputElement>("input[name=value]");
    if (input) {
      input.value = asked.value;
      input.select();
    }
    return new Promise((done) => (this.done = done));
  }

  override render(): TemplateResult | typeof nothing {
    const { asked } = this;
    if (!asked) return nothing;
    return html`<dialog aria-labelledby="ask-title" @close=${() => this.answer(null)}>
      <form @submit=${(event: Event) => this.onSubmit(event)}>
        <h2 id="ask-title">${asked.title}</h2>
        <label>${asked.label}<input name="value" autocomplete="off" spellcheck="false" aria-describedby="ask-wrong" /></label>
        ${asked.choices ? html`<fieldset><legend>${asked.choices.label}</legend>${asked.choices.options.map(({ name, says }, at) => html`<label class="choice"><input type="radio" name="choice" value=${name} ?checked=${at === 0} /><span><b>${name}</b> ${says}</span></label>`)}</fieldset>` : nothing}
        <p id="ask-wrong" class="wrong" role="alert">${this.wrong}</p>
        <p class="buttons"><button type="submit">${asked.action}</button><button type="button" @click=${() => this.querySelector("dialog")?.close()}>Leave it</button></p>
      </form>
    </dialog>`;
  }

  private onSubmit(event: Event): void {
    event.preventDefault();
    const given = event.target instanceof HTMLFormElement ? new FormData(event.target) : new FormData();
    const value = String(given.get("value") ?? "").trim();
    this.wrong = this.asked?.refuse(value) ?? "";
    if (this.wrong !== "") return;
    this.answer({ value, choice: String(given.get("choice") ?? "") });
    this.querySelector("dialog")?.close();
  }

  private answer(answer: { readonly value: string; readonly choice: string } | null): void {
    this.done(answer);
    this.done = () => undefined;
  }
}
