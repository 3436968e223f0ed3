import { scaleLinear } from "d3-scale";
import { html, LitElement, nothing, svg, type TemplateResult } from "lit";
import { customElement, property } from "lit/decorators.js";
import type { SpreadPicture } from "../7-view/spread-picture.js";

const width = 280;
const height = 56;

/** How a plan's score spreads over days: a bar for each stretch of it; the eight middle days of ten are filled. */
@customElement("rota-spread")
export class SpreadBars extends LitElement {
  @property({ attribute: false }) spread: SpreadPicture | null = null;

  @property() hangsOn: string | null = null;

  override createRenderRoot(): HTMLElement {
    return this;
  }

  override render(): TemplateResult | typeof nothing {
    const { spread } = this;
    const [first, last] = [spread?.bars[0], spread?.bars.at(-1)];
    if (!spread || !first || !last) return nothing;
    const x = scaleLinear([first.from, last.to], [0, width]);
    const y = scaleLinear([0, Math.max(...spread.bars.map(({ share }) => share))], [0, height - 4]);
    return html`<h3>On other days</h3>
      <svg viewBox="0 0 ${width} ${height}" width="100%" role="img" aria-label=${spread.words}>
        ${spread.bars.map(({ from, to, share, words }) => svg`<rect class=${to > spread.p10 && from < spread.p90 ? "inner" : "outer"} x=${x(from) + 0.5} y=${height - y(share)} width=${x(to) - x(from) - 1} height=${y(share)}><title>${words}</title></rect>`)}
        <line class="ground" x1="0" x2=${width} y1=${height - 0.5} y2=${height - 0.5} />
      </svg>
      <p class="quiet">${spread.words}</p>
      ${this.hangsOn ? html`<p>${this.hangsOn}</p>` : nothing}`;
  }
}
