import { html, nothing, type PropertyValues, svg, type TemplateResult } from "lit";
import { customElement, property, state } from "lit/decorators.js";
import type { Document } from "../1-text/document.js";
import type { MoverLine } from "../7-view/why-words.js";
import { Drawing } from "./drawing.js";
import { Searcher } from "./searcher.js";

const rowHeight = 14;

/**
 * What moves a plan's score most within its own uncertainty: bars to both sides of what it is thought to be, the widest
 * first, and words.
 */
@customElement("rota-matters")
export class WhatMatters extends Drawing {
  @property() plan = "";
  @property({ attribute: false }) documents: () => readonly Document[] = () => [];
  @state() private movers: readonly MoverLine[] | null = null;
  @state() private asks: readonly string[] = [];
  @state() private looking = false;
  private readonly searcher = new Searcher((message) => {
    if (message.kind !== "movers" || message.plan !== this.plan) return;
    [this.movers, this.asks, this.looking] = [message.movers, message.asks, false];
  });

  override willUpdate(changed: PropertyValues<this>): void {
    if (changed.has("plan")) [this.movers, this.looking] = [null, false];
  }

  override render(): TemplateResult | typeof nothing {
    const { plan, movers, looking } = this;
    if (plan === "") return nothing;
    return html`<section aria-label="What matters">
      <h3>What matters for ${plan}</h3>
      ${
        movers === null
          ? html`<p class="buttons"><button type="button" ?disabled=${looking} @click=${this.look}>${looking ? "Looking…" : "Look what moves its score most"}</button></p>`
          : movers.length === 0
            ? html`<p>Nothing that is uncertain moves it.</p>`
            : html`${this.asks.length > 0 ? html`<p>What to test next:</p><ul>${this.asks.map((line) => html`<li>${line}</li>`)}</ul>` : nothing}<ol>${movers.map((mover) => html`<li>${this.bar(mover, movers)}${mover.range}: ${mover.words}</li>`)}</ol>`
      }
    </section>`;
  }

  private readonly look = (): void => {
    this.looking = true;
    this.searcher.ask({ kind: "movers", documents: this.documents(), plan: this.plan });
  };

  private bar({ low, high, now }: MoverLine, all: readonly MoverLine[]): TemplateResult {
    const ends = all.flatMap((mover) => [mover.low, mover.high, mover.now]);
    const [least, most] = [Math.min(...ends), Math.max(...ends)];
    const x = (score: number): number => (this.width * (score - least)) / Math.max(1e-9, most - least);
    const [from, to] = [Math.min(low, high), Math.max(low, high)];
    return html`<svg viewBox="0 0 ${this.width} ${rowHeight}" width=${this.width} height=${rowHeight} aria-hidden="true">
      ${svg`<rect class="share-all" x=${x(from)} y="2" width=${Math.max(1, x(now) - x(from))} height="10" /><rect class="work" x=${x(now)} y="2" width=${Math.max(1, x(to) - x(now))} height="10" /><line class="now" x1=${x(now)} x2=${x(now)} y1="0" y2=${rowHeight} />`}
    </svg>`;
  }
}
