import { html, LitElement, nothing, type TemplateResult } from "lit";
import { customElement, property } from "lit/decorators.js";
import type { Explanation } from "../7-view/answer.js";
import type { ShownFinding } from "../editor/findings.js";

/**
 * What is wrong in the cursor's line, with what mends it; then how its answer came about: the formula in words, what
 * went in with its origin, and whose model it is.
 */
@customElement("rota-detail")
export class AnswerDetail extends LitElement {
  @property({ attribute: false }) explanation: Explanation | null = null;

  @property({ attribute: false }) findings: readonly ShownFinding[] = [];

  override createRenderRoot(): HTMLElement {
    return this;
  }

  override render(): TemplateResult {
    return html`${this.findings.map((finding) => this.finding(finding))}${this.answer()}`;
  }

  private finding({ severity, message, fixes }: ShownFinding): TemplateResult {
    return html`<div class="found found-${severity}"><p>${message}</p>${fixes.map(({ title, apply }) => html`<button type="button" @click=${apply}>${title}</button>`)}</div>`;
  }

  private answer(): TemplateResult | typeof nothing {
    const { explanation } = this;
    if (!explanation && this.findings.length > 0) return nothing;
    if (!explanation)
      return html`<p class="quiet">Put the cursor on a line, or point at its answer, to see how the answer came about. Alt+A reads it out, F8 goes to the next finding.</p>`;
    const { shown, formula, by, inputs } = explanation;
    return html`<p><b>${shown}</b></p><p>${formula}. ${by}.</p>
      ${inputs.length > 0 ? html`<dl>${inputs.map(({ name, values }) => html`<div><dt>${name}</dt><dd>${values.map(({ value, from }, at) => html`${at > 0 ? ", " : ""}${value}${from === "" ? nothing : html` <span class="quiet">(${from})</span>`}`)}</dd></div>`)}</dl>` : nothing}`;
  }
}
