import { scaleLinear } from "d3-scale";
import { area, line } from "d3-shape";
import { html, nothing, svg, type TemplateResult } from "lit";
import { customElement, property } from "lit/decorators.js";
import { weekCaution } from "../7-view/cautions.js";
import type { PartPoint, WeekPicture } from "../7-view/week-picture.js";
import { Drawing } from "./drawing.js";

const top = 34;
const rowHeight = 30;
const gap = 6;
const labelWidth = 52;
/** What is back is drawn from here to all of it. */
const least = 0.8;

/**
 * A week: days across, parts of the body down. The area is what the team has back on average, the line the least of anybody;
 * events are bars with a letter, rest days are hatched. Tells `go` with the place of an event's line, and `light` while it
 * is pointed at; the event of `line` is lit.
 */
@customElement("rota-week")
export class WeekGrid extends Drawing {
  @property({ attribute: false }) picture: WeekPicture | null = null;
  @property({ attribute: false }) line = { from: -1, to: -1 };

  override render(): TemplateResult | typeof nothing {
    const { picture } = this;
    if (!picture) return nothing;
    const height = top + picture.parts.length * (rowHeight + gap) + 4;
    return html`
      <h2>${picture.name}</h2>
      <svg viewBox="0 0 ${this.width} ${height}" width=${this.width} height=${height} role="img" aria-label="${picture.parts.map(({ words }) => words).join(". ") || "Nothing is left of any event"}. The lists below say the same.">
        <defs><pattern id="resting" width="6" height="6" patternUnits="userSpaceOnUse" patternTransform="rotate(45)"><rect class="rest-stripe" width="1" height="6" /></pattern></defs>
        ${this.days(picture, height)} ${picture.parts.map(({ part, points }, at) => this.row(part, points, top + at * (rowHeight + gap)))} ${this.events(picture, height)}
      </svg>
      <ul class="key" aria-label="Key">
        <li><svg width="18" height="10" aria-hidden="true"><path class="reserve" d="M0 10V3L18 6V10Z" /></svg> the team's mean, back</li>
        <li><svg width="18" height="10" aria-hidden="true"><path class="least" d="M0 4L18 8" /></svg> the least of anybody</li>
        <li><svg width="18" height="10" aria-hidden="true"><rect class="rest-day" width="18" height="10" /></svg> no event</li>
        <li>rows go from ${Math.round(least * 100)} % to all of it</li>
      </ul>
      <ol class="events">${picture.sessions.map(({ words, offset }, at) => html`<li class=${this.lit(offset) ? "lit" : ""}><button type="button" @click=${() => this.tell("go", offset)}><b>${letter(at)}</b> ${words}</button></li>`)}</ol>
      ${picture.due ? html`<p class="due">${picture.due.words}</p>` : nothing}
      <details><summary>Part by part</summary><ul class="backs">${picture.parts.map(({ words }) => html`<li>${words}</li>`)}</ul></details>
      <p class="quiet">${picture.zoneWords}</p>
      <p class="caution">${weekCaution}</p>
    `;
  }

  private scale({ fromS, toS }: WeekPicture) {
    return scaleLinear([fromS, toS], [labelWidth, this.width - 1]);
  }

  private days(picture: WeekPicture, height: number): TemplateResult {
    const x = this.scale(picture);
    const dayWidth = (this.width - labelWidth) / picture.days.length;
    const named = (weekday: string, date: string): string =>
      dayWidth < 22 ? date.slice(8) : `${dayWidth < 40 ? weekday.slice(0, 1) : weekday} ${date.slice(8)}`;
    return svg`${picture.days.map(({ weekday, date, fromS, rest }, at) => {
      const to = picture.days[at + 1]?.fromS ?? picture.toS;
      return svg`<g class="axis">${rest ? svg`<rect class="rest-day" x=${x(fromS)} y=${top - 4} width=${x(to) - x(fromS)} height=${height - top}><title>${weekday} ${date}: no event</title></rect>` : nothing}
        <line x1=${x(fromS)} x2=${x(fromS)} y1="4" y2=${height - 2} /><text x=${x(fromS) + 2} y="12">${named(weekday, date)}</text></g>`;
    })}`;
  }

  private row(part: string, points: readonly PartPoint[], y: number): TemplateResult {
    const { picture } = this;
    if (!picture) return svg``;
    const x = this.scale(picture);
    const level = scaleLinear([least, 1], [y + rowHeight, y]).clamp(true);
    const mean = area<PartPoint>(
      ({ atS }) => x(atS),
      y + rowHeight,
      (point) => level(point.mean),
    );
    const lowest = line<PartPoint>(
      ({ atS }) => x(atS),
      (point) => level(point.least),
    );
    return svg`<g class="part"><text x="0" y=${y + rowHeight / 2 + 4}>${part}</text><path class="reserve" d=${mean([...points]) ?? ""} /><path class="least" d=${lowest([...points]) ?? ""} /></g>`;
  }

  private events(picture: WeekPicture, height: number): TemplateResult {
    const x = this.scale(picture);
    return svg`${picture.sessions.map(
      (
        { startS, words, offset },
        at,
      ) => svg`<g class="session ${this.lit(offset) ? "lit" : ""}" @click=${() => this.tell("go", offset)} @mouseover=${() => this.tell("light", offset)} @mouseout=${() => this.tell("light", null)}>
      <rect class="target" x=${x(startS) - 12} y="14" width="24" height=${height - 14} /><line x1=${x(startS)} x2=${x(startS)} y1=${top - 8} y2=${height - 2} /><text x=${x(startS)} y=${top - 10} text-anchor="middle">${letter(at)}</text><title>${words}</title></g>`,
    )}
      ${picture.due ? svg`<line class="due-line" x1=${x(picture.due.atS)} x2=${x(picture.due.atS)} y1=${top - 8} y2=${height - 2}><title>${picture.due.words}</title></line>` : nothing}`;
  }

  private lit(offset: number): boolean {
    return this.line.from <= offset && offset <= this.line.to;
  }

  private tell(type: "go" | "light", offset: number | null): void {
    this.dispatchEvent(new CustomEvent(type, { detail: offset, bubbles: true }));
  }
}

function letter(at: number): string {
  return String.fromCharCode(65 + (at % 26));
}
