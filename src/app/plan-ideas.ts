import { html, LitElement, nothing, type PropertyValues, type TemplateResult } from "lit";
import { customElement, property, state } from "lit/decorators.js";
import { percent } from "../0-base/quantity.js";
import type { Document } from "../1-text/document.js";
import { type PlanComparison, rowsOf } from "../7-view/comparison.js";
import type { Proposal } from "../7-view/proposals.js";
import type { WhatTurns } from "../7-view/why-words.js";
import type { FromSearch, ToSearch } from "./protocol.js";
import { Searcher } from "./searcher.js";

/**
 * Suggested plans for the event at the cursor, and its plans side by side. Tells `insert` with a plan's text, `proposed`
 * with the best one's.
 */
@customElement("rota-ideas")
export class PlanIdeas extends LitElement {
  @property() event = "";
  @property({ attribute: false }) plans: readonly string[] = [];
  @property({ attribute: false }) documents: () => readonly Document[] = () => [];
  @state() private proposals: readonly Proposal[] = [];
  @state() private comparison: PlanComparison | null = null;
  @state() private why: WhatTurns | null = null;
  @state() private said = "";
  @state() private busy = false;
  private wishes = "";
  private readonly searcher = new Searcher((message) => this.hear(message));

  override createRenderRoot(): HTMLElement {
    return this;
  }

  /** What was found belongs to its event: another one begins anew. */
  override willUpdate(changed: PropertyValues<this>): void {
    if (!changed.has("event") || changed.get("event") === undefined) return;
    this.searcher.stop();
    [this.proposals, this.comparison, this.why, this.said, this.busy] = [[], null, null, "", false];
  }

  override render(): TemplateResult | typeof nothing {
    if (this.event === "") return nothing;
    return html`
      <h2>Ideas for ${this.event}</h2>
      <p class="ask">
        ${
          this.busy
            ? html`<button type="button" @click=${this.stop}>Stop, keep what there is</button>`
            : html`<button type="button" @click=${this.suggest}>Suggest plans</button>`
        }
        ${this.plans.length > 1 && !this.busy ? html`<button type="button" @click=${this.compare}>Compare ${this.plans.join(", ")}</button>` : nothing}
      </p>
      <details class="wishes">
        <summary>With limits of your own</summary>
        <label>A line each, as under a plan
          <textarea rows="3" spellcheck="false" placeholder="rule set at most 8 reps" .value=${this.wishes} @input=${this.wish}></textarea></label>
      </details>
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

  private table(comparison: PlanComparison): TemplateResult {
    const [heads, ...rows] = rowsOf(comparison);
    const wide = heads?.[1].length ?? 1;
    return html`<table class="beside">
      <thead><tr>${heads?.[1].map((name) => html`<th scope="col">${name}</th>`)}</tr></thead>
      ${rows.map(([label, cells]) => html`<tbody><tr><th scope="rowgroup" colspan=${wide}>${label}</th></tr><tr>${cells.map((cell) => html`<td>${cell}</td>`)}</tr></tbody>`)}
    </table>
    ${this.why === null ? html`<p class="quiet">Looking what would turn it…</p>` : html`<h3>What would have to be true for ${this.why.follower} to win</h3><ul>${this.why.lines.map((line) => html`<li>${line}</li>`)}</ul>`}`;
  }

  /** Looks for plans for the event. */
  readonly suggest = (): void => {
    [this.comparison, this.why, this.proposals] = [null, null, []];
    this.ask({ kind: "suggest", documents: this.documents(), event: this.event, wishes: this.wishes }, "Looking…");
  };

  private readonly wish = ({ target }: Event): void => {
    if (target instanceof HTMLTextAreaElement) this.wishes = target.value;
  };

  private readonly compare = (): void => {
    [this.comparison, this.why, this.proposals] = [null, null, []];
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
        if (message.event !== this.event) return;
        this.proposals = message.proposals;
        this.busy = !message.done;
        this.said = [
          message.nothing ?? "",
          message.done
            ? `${message.steps.toLocaleString("en")} plans tried. The model does not know technique, heat, sleep or pain: look at each before you use it.`
            : `${message.steps.toLocaleString("en")} plans tried…`,
        ]
          .join(" ")
          .trim();
        if (message.done && message.proposals[0])
          this.dispatchEvent(new CustomEvent("proposed", { detail: message.proposals[0].text, bubbles: true }));
        return;
      case "comparison": {
        this.busy = false;
        [this.comparison, this.why] = [message.comparison, message.why];
        const [first, second] = message.comparison.plans;
        this.said =
          first && second ? `${first.name} beats ${second.name} on ${percent(message.comparison.beats[0]?.[1] ?? 0)} of 10,000 days.` : "";
        return;
      }
      case "failed":
        this.busy = false;
        this.said = message.reason;
    }
  }
}
