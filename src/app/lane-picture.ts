import { scaleLinear } from "d3-scale";
import { area } from "d3-shape";
import { html, nothing, type PropertyValues, svg, type TemplateResult } from "lit";
import { customElement, property, state } from "lit/decorators.js";
import { clock, percent } from "../0-base/quantity.js";
import type { PictureLane, Picture, PicturePiece } from "../7-view/picture.js";
import "./spread-bars.js";
import { Drawing } from "./drawing.js";

const laneHeight = 62;
const barHeight = 20;
const reserveHeight = 20;
const top = 22;
const ticks = 5;
/** px that so many ticks have room in. */
const usualWidth = 360;
/** A step closer, and the closest. */
const closer = 1.5;
const mostZoom = 12;
/** A stage's name stands where it does not run into the next one's. */
function nameFits(name: string, from: number, to: number): boolean {
  return to - from > name.length * letterWidth;
}

const letterWidth = 6.5;
const niceSteps = [5, 10, 15, 30, 60, 120, 300, 600, 900, 1800, 3600];

/**
 * A plan's lanes over time, the reserve drawn under each. Work is filled, a hold is striped, a handover is a tick, a wait
 * is dotted, rest is a line. Arrow keys walk the pieces. Tells `go` with the place of a piece's line, and `light` while a
 * piece is pointed at or walked to; the pieces of `line` are lit.
 */
@customElement("rota-lanes")
export class LanePicture extends Drawing {
  @property({ attribute: false }) picture: Picture | null = null;
  @property({ attribute: false }) line = { from: -1, to: -1 };
  /** How many times as wide as its room it is drawn; what does not fit is scrolled to. */
  @state() private zoom = 1;
  /** Where the keys have walked to: a lane and one of its pieces. */
  @state() private walked: { readonly lane: number; readonly piece: number } | null = null;

  /** A line that comes and goes lights pieces up without drawing the picture again. */
  override shouldUpdate(changed: PropertyValues<this>): boolean {
    if (changed.has("line")) this.lightLine();
    return [...changed.keys()].some((key) => key !== "line");
  }

  override updated(changed: PropertyValues<this>): void {
    // The same plan drawn again, as when its days are known, leaves the walk where it is.
    if (changed.has("picture") && changed.get("picture")?.title !== this.picture?.title) this.walked = null;
    this.lightLine();
  }

  private lightLine(): void {
    const { from, to } = this.line;
    for (const piece of this.querySelectorAll<SVGElement>("[data-at]")) {
      const at = Number(piece.dataset.at);
      piece.classList.toggle("lit", from <= at && at <= to);
    }
  }

  override render(): TemplateResult {
    const { picture } = this;
    if (!picture) return html`<p class="quiet">Put the cursor into a plan to see its lanes.</p>`;
    const height = top + picture.lanes.length * laneHeight + 18;
    const at = this.piece();
    return html`
      <h2>${picture.title}</h2>
      <p class="score">${picture.score}</p>
      <div class="walk" tabindex="0" role="group" aria-label="Lanes of ${picture.title}, ${picture.score}. Arrow keys walk the pieces, plus and minus draw closer, Enter goes to the line; the table below says the same." @wheel=${this.onWheel} @keydown=${this.onKey} @blur=${() => this.tell("light", null)}>
        <svg viewBox="0 0 ${this.wide} ${height}" width=${this.wide} height=${height} aria-hidden="true" @mouseover=${this.onOver} @mouseout=${() => this.tell("light", null)}>
          <defs>
            <pattern id="stripes" width="5" height="5" patternUnits="userSpaceOnUse" patternTransform="rotate(45)"><rect class="stripe-ground" width="5" height="5" /><rect class="stripe" width="2.2" height="5" /></pattern>
          </defs>
          ${this.axis(picture, height)} ${picture.lanes.map((lane, index) => this.lane(lane, index, picture))} ${this.seen(picture, height)}
        </svg>
      </div>
      ${picture.seen.length > 0 ? html`<p class="quiet">As logged (thick lines): ${picture.seen.map(({ words }) => words).join(", ")}.</p>` : nothing}
      <p class="walked" role="status">${at?.words ?? ""}</p>
      ${this.key(picture)} ${this.table(picture)}
      <rota-spread .spread=${picture.spread} .hangsOn=${picture.hangsOn}></rota-spread>
      ${this.turns(picture)}
    `;
  }

  private get wide(): number {
    return this.width * this.zoom;
  }

  /** Closer or farther, the moment in the middle of the room staying there. */
  private zoomTo(zoom: number): void {
    const room = this.querySelector(".walk");
    const middle = room ? (room.scrollLeft + room.clientWidth / 2) / room.scrollWidth : 0;
    this.zoom = Math.min(mostZoom, Math.max(1, zoom));
    void this.updateComplete.then(() => room?.scrollTo({ left: middle * room.scrollWidth - room.clientWidth / 2 }));
  }

  /** With Ctrl, as browsers zoom; a pinch on a touch pad comes as that too. */
  private readonly onWheel = (event: WheelEvent): void => {
    if (!event.ctrlKey) return;
    event.preventDefault();
    this.zoomTo(this.zoom * (event.deltaY < 0 ? closer : 1 / closer));
  };

  private scale({ endS }: Picture) {
    return scaleLinear([0, Math.max(1, endS)], [1, this.wide - 1]);
  }

  private axis(picture: Picture, height: number): TemplateResult {
    const x = this.scale(picture);
    const step = niceSteps.find((seconds) => picture.endS / seconds <= (ticks * this.wide) / usualWidth) ?? 3600;
    const times = Array.from({ length: Math.floor(picture.endS / step) + 1 }, (_, at) => at * step);
    return svg`<g class="axis">
      ${times.map((time) => svg`<line x1=${x(time)} x2=${x(time)} y1=${top - 6} y2=${height - 16} /><text x=${x(time)} y=${height - 3} text-anchor=${time === 0 ? "start" : x(time) > this.wide - 24 ? "end" : "middle"}>${clock(time)}</text>`)}
      ${picture.stages.length > 1 ? picture.stages.map(({ name, startS }, at) => svg`<line class="stage" x1=${x(startS)} x2=${x(startS)} y1="4" y2=${height - 16} />${nameFits(name, x(startS), x(picture.stages[at + 1]?.startS ?? picture.endS)) ? svg`<text x=${x(startS) + 3} y="12">${name}</text>` : nothing}`) : nothing}
    </g>`;
  }

  private lane({ name, pieces, reserve }: PictureLane, at: number, picture: Picture): TemplateResult {
    const y = top + at * laneHeight;
    const x = this.scale(picture);
    const base = y + 14 + barHeight + reserveHeight;
    const curve = area<PictureLane["reserve"][number]>(
      ({ atS }) => x(atS),
      base,
      ({ left }) => base - left * (reserveHeight - 3),
    );
    return svg`<g class="lane">
      <text x="1" y=${y + 10}>${name}</text>
      <path class="reserve" d=${curve([...reserve]) ?? ""}><title>${name}: reserve left</title></path>
      ${pieces.map((piece, index) => this.drawn(piece, x(piece.startS), x(piece.endS), y + 14, this.walked?.lane === at && this.walked.piece === index))}
    </g>`;
  }

  /** What a log saw: a line through all lanes, or a mark on one. */
  private seen(picture: Picture, height: number): TemplateResult {
    const x = this.scale(picture);
    return svg`<g class="seen">${picture.seen.map(({ atS, athlete, words }) => {
      const at = picture.lanes.findIndex(({ name }) => name === athlete);
      return at < 0
        ? svg`<line x1=${x(atS)} x2=${x(atS)} y1=${top - 4} y2=${height - 16}><title>${words}</title></line>`
        : svg`<circle cx=${x(atS)} cy=${top + at * laneHeight + 14 + barHeight / 2} r="5"><title>${words}</title></circle>`;
    })}</g>`;
  }

  private drawn(piece: PicturePiece, from: number, to: number, y: number, walked: boolean): TemplateResult {
    if (piece.activity === "rest")
      return svg`<line class="rest ${walked ? "walked" : ""}" x1=${from} x2=${to} y1=${y + barHeight / 2} y2=${y + barHeight / 2} />`;
    const height = piece.activity === "handover" || piece.activity === "wait" ? barHeight / 3 : barHeight;
    return svg`<rect class="${piece.activity} movement-${piece.movement % 3} ${walked ? "walked" : ""}" data-at=${piece.offset ?? nothing} x=${from} y=${y + (barHeight - height) / 2} width=${Math.max(0.5, to - from)} height=${height} @click=${() => this.tell("go", piece.offset)}><title>${piece.words}</title></rect>`;
  }

  private piece(): PicturePiece | null {
    const { walked, picture } = this;
    return (walked && picture?.lanes[walked.lane]?.pieces[walked.piece]) ?? null;
  }

  private readonly onKey = (event: KeyboardEvent): void => {
    const lanes = this.picture?.lanes ?? [];
    const { lane, piece } = this.walked ?? { lane: 0, piece: -1 };
    const within = (at: number, of: number): number => Math.max(0, Math.min(of - 1, at));
    const steps: Readonly<Record<string, readonly [lane: number, piece: number]>> = {
      ArrowRight: [0, 1],
      ArrowLeft: [0, -1],
      ArrowDown: [1, 0],
      ArrowUp: [-1, 0],
      Home: [0, -1e6],
      End: [0, 1e6],
    };
    const step = steps[event.key];
    const zoom = { "+": closer, "=": closer, "-": 1 / closer, "0": 0 }[event.key];
    if (zoom !== undefined) this.zoomTo(this.zoom * zoom);
    if (event.key === "Enter") this.tell("go", this.piece()?.offset ?? null);
    if (!step) return;
    event.preventDefault();
    const next = within(lane + step[0], lanes.length);
    const pieces = lanes[next]?.pieces ?? [];
    // Up and down stay at the same time, as the other lane spends it.
    const atS = this.piece()?.startS ?? 0;
    const beside = pieces.findLastIndex(({ startS }) => startS <= atS + 1e-9);
    this.walked = { lane: next, piece: within(next === lane ? piece + step[1] : beside, pieces.length) };
    this.tell("light", this.piece()?.offset ?? null);
  };

  private readonly onOver = ({ target }: Event): void => {
    const at = target instanceof SVGElement ? target.dataset.at : undefined;
    if (at !== undefined) this.tell("light", Number(at));
  };

  private tell(type: "go" | "light", offset: number | null): void {
    if (offset !== null || type === "light") this.dispatchEvent(new CustomEvent(type, { detail: offset, bubbles: true }));
  }

  private key({ movements }: Picture): TemplateResult {
    return html`<ul class="key" aria-label="Key">
      ${movements.map((name, at) => html`<li><svg width="18" height="10" aria-hidden="true"><rect class="work movement-${at % 3}" width="18" height="10" /></svg> ${name}</li>`)}
      <li><svg width="18" height="10" aria-hidden="true"><rect class="hold" width="18" height="10" /></svg> hold</li>
      <li><svg width="18" height="10" aria-hidden="true"><line class="rest" x1="0" x2="18" y1="5" y2="5" /></svg> rest</li>
      <li><svg width="18" height="10" aria-hidden="true"><rect class="handover" y="3" width="18" height="4" /></svg> handover</li>
      <li><svg width="18" height="10" aria-hidden="true"><rect class="wait" y="3" width="18" height="4" /></svg> wait</li>
      <li><svg width="18" height="10" aria-hidden="true"><path class="reserve" d="M0 10V2L18 8V10Z" /></svg> reserve left</li>
      <li><button type="button" aria-label="Zoom in" ?disabled=${this.zoom >= mostZoom} @click=${() => this.zoomTo(this.zoom * closer)}>+</button><button type="button" aria-label="Zoom out" ?disabled=${this.zoom <= 1} @click=${() => this.zoomTo(this.zoom / closer)}>−</button></li>
    </ul>`;
  }

  private table({ lanes }: Picture): TemplateResult {
    return html`<table>
      <thead><tr><th scope="col">Athlete</th><th scope="col">Share</th><th scope="col">In all</th></tr></thead>
      <tbody>${lanes.map(({ name, totals, share }) => html`<tr><th scope="row">${name}</th><td class="share"><svg width="56" height="10" aria-hidden="true"><rect class="share-all" width="56" height="10" /><rect class="work" width=${56 * share} height="10" /></svg> ${percent(share)}</td><td>${totals}</td></tr>`)}</tbody>
    </table>`;
  }

  private turns({ lanes }: Picture): TemplateResult {
    return html`<details><summary>Turn by turn</summary>${lanes.map(({ name, pieces }) => html`<h3>${name}</h3><ol>${pieces.filter(({ activity }) => activity !== "rest").map(({ words }) => html`<li>${words}</li>`)}</ol>`)}</details>`;
  }
}
