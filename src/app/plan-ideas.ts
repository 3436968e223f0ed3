import { html, LitElement, nothing, type TemplateResult } from "lit";
import { customElement, property, state } from "lit/decorators.js";
import { percent } from "../0-base/quantity.js";
import type { Document } from "../1-text/document.js";
import { type Comparison, rowsOf } from "../7-view/comparison.js";
import type { Proposal } from "../7-view/proposals.js";
import type { FromSearch, ToSearch } from "./protocol.js";
import { Searcher } from "./searcher.js";

/** Suggested plans for the event at the cursor, and its plans side by side. Tells `insert` with a plan's text. */
@customElement("rota-ideas")
export class PlanIdeas extends LitElement {
  @property() event = "";
  @property({ attribute: false }) plans: readonly string[] = [];
  @property({ attribute: false }) documents: () => readonly Document[] = () => [];
  @state() private proposals: readonly Proposal[] = [];
  @state() private comparison: Comparison | null = null;
  @state() private said = "";
  @state() private busy = false;
  private readonly searcher = new Searcher((message) => this.hear(message));

  override createRenderRoot(): HTMLElement {
    return this;
  }

  override render(): TemplateResult | typeof nothing {
    if (this.event === "") return nothing;
    return html`
      <h2>Ideas for ${this.event}</h2>
      <p class="ask">
        ${this.busy
          ? html`<button type="button" @click=${this.stop}>Stop, keep what there is</button>`
          : html`<button type="button" @click=${this.suggest}>Suggest plans</button>`}
        ${this.plans.length > 1 && !this.busy ? html`<button type="button" @click=${this.compare}>Compare ${this.plans.join(", ")}</button>` : nothing}
      </p>
      <p role="status" class="quiet">${this.said}</p>
      ${this.proposals.map((proposal) => this.proposal(proposal))}
      ${this.comparison ? this.table(this.comparison) : nothing}
    `;
  }

  private proposal({ kind, score, sound, reasons, text }: Proposal): TemplateResult {
    return html`<article>
      <h3>${score}</h3>
      <p>${kind}${sound ? "" : html` <b>needs a look</b>`}</p>
      ${reasons.length > 0 ? html`<ul>${reasons.map((reason) => html`<li>${reason}</li>`)}</ul>` : nothing}
      <details><summary>Its text</summary><pre tabindex="0">${text}</pre></details>
      <button type="button" ?disabled=${this.busy} @click=${() => this.dispatchEvent(new CustomEvent("insert", { detail: text, bubbles: true }))}>Put it into the document</button>
    </article>`;
  }

  private table(comparison: Comparison): TemplateResult {
    const [heads, ...rows] = rowsOf(comparison);
    return html`<div class="wide" tabindex="0" role="region" aria-label="Plans side by side"><table>
      <thead><tr><th scope="col"><span class="unseen">What</span></th>${heads?.[1].map((name) => html`<th scope="col">${name}</th>`)}</tr></thead>
      <tbody>${rows.map(([label, cells]) => html`<tr><th scope="row">${label}</th>${cells.map((cell) => html`<td>${cell}</td>`)}</tr>`)}</tbody>
    </table></div>`;
  }

  private readonly suggest = (): void => {
    this.comparison = null;
    this.proposals = [];
    this.ask({ kind: "suggest", documents: this.documents(), event: this.event }, "Looking…");
  };

  private readonly compare = (): void => {
    this.proposals = [];
    this.ask({ kind: "compare", documents: this.documents(), plans: this.plans }, "Running both on the same days…");
  };

  private readonly stop = (): void => this.searcher.stop();

  private ask(message: ToSearch, said: string): void {
    this.busy = true;
    this.said = said;
    this.searcher.ask(message);
  }

  private hear(message: FromSearch): void {
    switch (message.kind) {
      case "proposals":
        this.proposals = message.proposals;
        this.busy = !message.done;
        this.said = message.done ? `${message.steps.toLocaleString("en")} plans tried. The model does not know technique, heat, sleep or pain: look at each before you use it.` : `${message.steps.toLocaleString("en")} plans tried…`;
        return;
      case "comparison": {
        this.busy = false;
        this.comparison = message.comparison;
        const [first, second] = message.comparison.plans;
        this.said = first && second ? `${first.name} beats ${second.name} on ${percent(message.comparison.beats[0]?.[1] ?? 0)} of days.` : "";
        return;
      }
      case "failed":
        this.busy = false;
        this.said = message.reason;
    }
  }
}
