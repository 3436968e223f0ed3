import { scaleLinear } from "d3-scale";
import { html, LitElement, nothing, svg, type TemplateResult } from "lit";
import { customElement, property } from "lit/decorators.js";
import { clock } from "../0-base/quantity.js";
import type { Picture, PicturePiece } from "../7-view/picture.js";

const laneHeight = 44;
const barHeight = 22;
const top = 22;
const ticks = 5;
const niceSteps = [5, 10, 15, 30, 60, 120, 300, 600, 900, 1800, 3600];

/** A plan's lanes over time. Work is filled, a hold is striped, a handover is a tick, a wait is dotted, rest is a line. */
@customElement("rota-lanes")
export class LanePicture extends LitElement {
  @property({ attribute: false }) picture: Picture | null = null;
  @property({ type: Number }) width = 360;

  override createRenderRoot(): HTMLElement {
    return this;
  }

  override connectedCallback(): void {
    super.connectedCallback();
    this.observer.observe(this);
  }

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    this.observer.disconnect();
  }

  private readonly observer = new ResizeObserver(([entry]) => {
    const width = Math.round(entry?.contentRect.width ?? 0);
    if (width > 80 && width !== this.width) this.width = width;
  });

  override render(): TemplateResult {
    const { picture } = this;
    if (!picture) return html`<p class="quiet">Put the cursor into a plan to see its lanes.</p>`;
    const height = top + picture.lanes.length * laneHeight + 18;
    return html`
      <h2>${picture.title}</h2>
      <p class="score">${picture.score}</p>
      <svg viewBox="0 0 ${this.width} ${height}" width=${this.width} height=${height} role="img" aria-label="Lanes of ${picture.title}, ${picture.score}. The table below says the same.">
        <defs>
          <pattern id="stripes" width="5" height="5" patternUnits="userSpaceOnUse" patternTransform="rotate(45)"><rect class="stripe-ground" width="5" height="5" /><rect class="stripe" width="2.2" height="5" /></pattern>
        </defs>
        ${this.axis(picture, height)} ${picture.lanes.map((lane, at) => this.lane(lane, at, picture))}
      </svg>
      ${this.key()} ${this.table(picture)}
    `;
  }

  private scale({ endS }: Picture) {
    return scaleLinear([0, Math.max(1, endS)], [1, this.width - 1]);
  }

  private axis(picture: Picture, height: number): TemplateResult {
    const x = this.scale(picture);
    const step = niceSteps.find((seconds) => picture.endS / seconds <= ticks) ?? 3600;
    const times = Array.from({ length: Math.floor(picture.endS / step) + 1 }, (_, at) => at * step);
    return svg`<g class="axis">
      ${times.map((time) => svg`<line x1=${x(time)} x2=${x(time)} y1=${top - 6} y2=${height - 16} /><text x=${x(time)} y=${height - 3} text-anchor=${time === 0 ? "start" : x(time) > this.width - 24 ? "end" : "middle"}>${clock(time)}</text>`)}
      ${picture.stages.length > 1 ? picture.stages.map(({ name, startS }) => svg`<line class="stage" x1=${x(startS)} x2=${x(startS)} y1="4" y2=${height - 16} /><text x=${x(startS) + 3} y="12">${name}</text>`) : nothing}
    </g>`;
  }

  private lane({ name, pieces }: Picture["lanes"][number], at: number, picture: Picture): TemplateResult {
    const y = top + at * laneHeight;
    const x = this.scale(picture);
    return svg`<g class="lane">
      <text x="1" y=${y + 10}>${name}</text>
      ${pieces.map((piece) => this.piece(piece, x(piece.startS), x(piece.endS), y + 14))}
    </g>`;
  }

  private piece(piece: PicturePiece, from: number, to: number, y: number): TemplateResult {
    const width = Math.max(0.5, to - from);
    const click = piece.offset === null ? nothing : () => this.dispatchEvent(new CustomEvent("go", { detail: piece.offset, bubbles: true }));
    if (piece.activity === "rest") return svg`<line class="rest" x1=${from} x2=${to} y1=${y + barHeight / 2} y2=${y + barHeight / 2} />`;
    const height = piece.activity === "handover" || piece.activity === "wait" ? barHeight / 3 : barHeight;
    return svg`<rect class=${piece.activity} x=${from} y=${y + (barHeight - height) / 2} width=${width} height=${height} @click=${click}><title>${piece.words}</title></rect>`;
  }

  private key(): TemplateResult {
    return html`<ul class="key" aria-label="Key">
      <li><svg width="18" height="10" aria-hidden="true"><rect class="work" width="18" height="10" /></svg> work</li>
      <li><svg width="18" height="10" aria-hidden="true"><rect class="hold" width="18" height="10" /></svg> hold</li>
      <li><svg width="18" height="10" aria-hidden="true"><line class="rest" x1="0" x2="18" y1="5" y2="5" /></svg> rest</li>
      <li><svg width="18" height="10" aria-hidden="true"><rect class="handover" y="3" width="18" height="4" /></svg> handover</li>
      <li><svg width="18" height="10" aria-hidden="true"><rect class="wait" y="3" width="18" height="4" /></svg> wait</li>
    </ul>`;
  }

  private table({ lanes }: Picture): TemplateResult {
    return html`<table>
        <thead><tr><th scope="col">Athlete</th><th scope="col">In all</th></tr></thead>
        <tbody>${lanes.map(({ name, totals }) => html`<tr><th scope="row">${name}</th><td>${totals}</td></tr>`)}</tbody>
      </table>
      <details><summary>Turn by turn</summary>${lanes.map(({ name, pieces }) => html`<h3>${name}</h3><ol>${pieces.filter(({ activity }) => activity !== "rest").map(({ words }) => html`<li>${words}</li>`)}</ol>`)}</details>`;
  }
}
