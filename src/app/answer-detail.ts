import { html, LitElement, nothing, type TemplateResult } from "lit";
import { customElement, property } from "lit/decorators.js";
import type { Explanation } from "../7-view/answer.js";

/** How one answer came about: the formula in words, what went in with its origin, and whose model it is. */
@customElement("rota-detail")
export class AnswerDetail extends LitElement {
  @property({ attribute: false }) explanation: Explanation | null = null;

  override createRenderRoot(): HTMLElement {
    return this;
  }

  override render(): TemplateResult {
    const { explanation } = this;
    if (!explanation) return html`<p class="quiet">Put the cursor on a line, or point at its answer, to see how the answer came about. Alt+A reads it out, F8 goes to the next finding.</p>`;
    const { shown, formula, by, inputs } = explanation;
    return html`<p><b>${shown}</b></p><p>${formula}. ${by}.</p>
      ${inputs.length > 0 ? html`<dl>${inputs.map(({ name, value, from }) => html`<div><dt>${name}</dt><dd>${value} <span class="quiet">(${from})</span></dd></div>`)}</dl>` : nothing}`;
  }
}
