import { scaleLinear } from "d3-scale";
import { line } from "d3-shape";
import { html, nothing, type PropertyValues, svg, type TemplateResult } from "lit";
import { customElement, property, state } from "lit/decorators.js";
import { percent } from "../0-base/quantity.js";
import type { Span } from "../0-base/span.js";
import type { Document } from "../1-text/document.js";
import type { TrialPoint } from "../7-view/number-trial.js";
import { dayScore } from "../7-view/spread-words.js";
import { Drawing } from "./drawing.js";
import type { FromSearch } from "./protocol.js";
import { Searcher } from "./searcher.js";

/** A number of the text under the cursor that can be tried. */
export interface Tried {
  readonly path: string;
  /** In the document. */
  readonly span: Span;
  readonly value: number;
  readonly values: readonly number[];
}

type Trial = Extract<FromSearch, { kind: "trial" }>;

const height = 130;
const edge = { left: 44, right: 8, top: 10, bottom: 34 };

/**
 * What a plan comes to with other values in place of the number at the cursor: the middle day as a curve, under it the share of
 * days with a miss or a drop. The value that stands is ringed, the best is filled. Tells `take` with a value that was touched.
 */
@customElement("rota-trial")
export class NumberTrial extends Drawing {
  @property({ attribute: false }) tried: Tried | null = null;
  @property() plan = "";
  @property({ attribute: false }) documents: () => readonly Document[] = () => [];
  @state() private trial: Trial | null = null;
  private readonly searcher = new Searcher((message) => {
    if (message.kind === "trial" && message.path === this.tried?.path && message.span.from === this.tried.span.from) this.trial = message;
  });

  override willUpdate(changed: PropertyValues<this>): void {
    if (!changed.has("tried") && !changed.has("plan")) return;
    const { tried, plan } = this;
    this.searcher.stop();
    if (!tried || plan === "") this.trial = null;
    else
      this.searcher.ask({
        kind: "try",
        documents: this.documents(),
        path: tried.path,
        span: tried.span,
        now: tried.value,
        values: tried.values,
        plan,
      });
  }

  /** The best value that was found, null before any was. */
  get best(): number | null {
    return this.trial && this.trial.best !== this.trial.now ? this.trial.best : null;
  }

  override render(): TemplateResult | typeof nothing {
    const { trial } = this;
    // A number that changes nothing in the plan of the picture is none of it.
    if (!trial || trial.points.length < 2 || new Set(trial.points.map(({ middle, troubled }) => `${middle} ${troubled}`)).size === 1)
      return nothing;
    const { now, best, points, score, done } = trial;
    return html`<section aria-label="The number at the cursor">
      <h3>${now} here; ${best === now ? "nothing near is better" : `${best} is better`}${done ? "" : " …"}</h3>
      ${this.curve(trial)}
      <p class="values" role="group" aria-label="Take another value">${points.map((point) => html`<button type="button" aria-pressed=${point.value === now} class=${point.value === best ? "best" : ""} title=${point.words} aria-label=${point.words} @click=${() => this.dispatchEvent(new CustomEvent("take", { detail: point.value, bubbles: true }))}>${point.value}</button>`)}</p>
      <p class="quiet">The ${score === "time" ? "time" : "reps"} of the middle day; bars: days with a miss or a drop. Alt+Shift+↑ and ↓ step the number, Alt+Shift+B takes the best.</p>
    </section>`;
  }

  private curve({ now, best, points, score }: Trial): TemplateResult {
    const done = points.filter(({ middle }) => Number.isFinite(middle));
    const middles = done.map(({ middle }) => middle);
    const [low, high] = [Math.min(...middles), Math.max(...middles)];
    const x = scaleLinear([points[0]?.value ?? 0, points.at(-1)?.value ?? 1], [edge.left, this.width - edge.right]);
    const y = scaleLinear(score === "time" ? [high, low] : [low, high], [height - edge.bottom, edge.top]);
    const path = line<TrialPoint>(
      (point) => x(point.value),
      (point) => y(point.middle),
    )(done);
    return html`<svg viewBox="0 0 ${this.width} ${height}" width=${this.width} height=${height} aria-hidden="true">
      ${points.map(({ value, troubled }) => svg`<rect class="trouble" x=${x(value) - 3} y=${height - 20 - 40 * troubled} width="6" height=${40 * troubled} />`)}
      <path class="curve" d=${path ?? ""} />
      ${done.map(({ value, middle }) => svg`<circle class=${value === best ? "best" : value === now ? "now" : "point"} cx=${x(value)} cy=${y(middle)} r=${value === best || value === now ? 5 : 2} />`)}
      <text x="0" y=${edge.top + 4}>${dayScore(score, score === "time" ? low : high)}</text>
      <text x="0" y=${height - edge.bottom}>${dayScore(score, score === "time" ? high : low)}</text>
      ${points.filter(({ value }, at) => at % Math.ceil(points.length / 8) === 0 || value === now).map(({ value }) => svg`<text x=${x(value)} y=${height - 4} text-anchor="middle">${value}</text>`)}
      <text x="0" y=${height - 20}>${percent(Math.max(...points.map(({ troubled }) => troubled)))}</text>
    </svg>`;
  }
}
