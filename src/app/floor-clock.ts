import { html, LitElement, nothing, type TemplateResult } from "lit";
import { customElement, state } from "lit/decorators.js";
import { clock } from "../0-base/quantity.js";
import { cardCaution } from "../7-view/cautions.js";
import { floorAt, type FloorPlan, type FloorState, type FloorStep, logText, type Mark } from "../7-view/floor.js";

const storeKey = "rotaline-floor";
const countdownS = 10;
/** Seconds before a change at which tones begin. */
const toneFromS = 3;
/** The wall clock and the device's own ran apart by this: it slept, or its clock was set. */
const apartS = 2;
/** Off the plan by more than a handover is worth a word. */
const lateS = 3;

/** What is kept of a run: a reload, a closed tab, a sleeping device leave it as it was. */
interface Kept {
  readonly plan: FloorPlan;
  /** Date.now() at the first second. */
  readonly startMs: number;
  readonly marks: readonly Mark[];
  readonly endedS: number | null;
}

/**
 * The floor's clock over the whole screen: who moves now, who holds, how long to the change, who is next. It counts from
 * the wall clock. One touch, or a presenter's keys, marks a change; others what goes wrong. Tells `log` with a log block.
 */
@customElement("rota-clock")
export class FloorClock extends LitElement {
  @state() private kept: Kept | null = null;
  @state() private plan: FloorPlan | null = null;
  @state() private nowS = 0;
  @state() private said = "";
  @state() private tones = false;
  @state() private voice = false;
  private ticking: ReturnType<typeof setInterval> | undefined;
  private heardS = Number.NEGATIVE_INFINITY;
  private called = "";
  private wake: WakeLockSentinel | null = null;
  private sound: AudioContext | null = null;
  private apart = { wallMs: 0, ownMs: 0 };

  override createRenderRoot(): HTMLElement {
    return this;
  }

  override firstUpdated(): void {
    const kept = keptRun();
    if (!kept) return;
    this.kept = kept;
    void this.open(kept.plan);
  }

  /** Shows the clock for a plan; a run that is under way goes on. */
  async open(plan: FloorPlan): Promise<void> {
    this.plan = plan;
    if (this.kept && this.kept.plan.plan !== plan.plan) this.forget();
    await this.updateComplete;
    this.querySelector("dialog")?.showModal();
    this.tick();
    clearInterval(this.ticking);
    this.ticking = setInterval(() => this.tick(), 100);
    if (this.kept) await this.stayAwake();
  }

  override render(): TemplateResult {
    const { plan, kept } = this;
    return html`<dialog aria-label="Clock" @close=${this.onClose} @keydown=${this.onKey}>${plan === null ? nothing : kept === null ? this.beforeStart(plan) : this.running(plan, kept)}</dialog>`;
  }

  private beforeStart(plan: FloorPlan): TemplateResult {
    return html`<div class="before">
      <h2>${plan.plan} for ${plan.event}</h2>
      <p>${clock(plan.endS)} on paper. ${cardCaution}</p>
      <p class="do"><button type="button" class="mark" @click=${() => this.begin(Date.now() + countdownS * 1000)}>Start in ${countdownS} s</button>
        <button type="button" @click=${() => this.begin(Math.ceil((Date.now() + countdownS * 1000) / 60_000) * 60_000)}>Start at the next full minute</button></p>
      <p>Two devices that start at the same full minute agree without a network, as far as their own clocks do.</p>
      ${this.settings()}
      <p class="do"><button type="button" @click=${this.close}>Close</button></p>
    </div>`;
  }

  private running(plan: FloorPlan, { marks, endedS }: Kept): TemplateResult {
    const nowS = endedS ?? this.nowS;
    if (nowS < 0) return html`<div class="run"><p class="far" role="timer">${Math.ceil(-nowS)}</p><p class="who">${plan.steps[0] ? said(plan.steps[0].who) : ""} first</p>${this.corner()}</div>`;
    const floor = floorAt(plan, marks, nowS);
    if (endedS !== null || floor.done) return this.afterEnd(plan, marks, endedS ?? nowS);
    const [step] = floor.now;
    return html`<div class="run">
      <p class="times"><span role="timer" aria-label="elapsed">${clock(nowS)}</span><span>${plan.capS === null ? "" : `${clock(Math.max(0, plan.capS - nowS))} left`}</span><span>${step ? `${step.stage} ${floor.standing}${step.target === null ? "" : ` of ${step.target}`}` : ""}</span></p>
      <div class="far" style="--letters: ${Math.max(4, ...floor.now.flatMap(({ who }) => who).map((name) => name.length))}; --lines: ${Math.max(1, floor.now.flatMap(({ who }) => who).length)}">${floor.now.flatMap(({ who }) => who).map((name) => html`<p>${name}</p>`)}</div>
      <p class="work">${floor.now.map(({ work, holders }) => `${work}${holders.length > 0 ? ` · ${said(holders)} ${holders.length > 1 ? "hold" : "holds"}` : ""}`).join("  |  ")}</p>
      ${floor.now.flatMap(({ cues }) => cues).map((cue) => html`<p class="cue">${cue}</p>`)}
      <p class="change"><b>${Math.ceil(floor.changeInS)}</b> s, then ${floor.next ? said(floor.next.who) : "done"}</p>
      <p class="late" role="status">${this.lateWords(floor)}${this.said === "" ? "" : ` ${this.said}`}</p>
      <p class="do">
        <button type="button" class="mark" @click=${() => this.mark({ kind: "change", atS: nowS })}>Change done</button>
        <button type="button" ?disabled=${marks.length === 0} @click=${this.undo}>Undo</button>
        <button type="button" @click=${() => this.end(nowS)}>Finish</button>
      </p>
      <div class="feet"><details class="mishaps"><summary>Missed, dropped, no-rep, reps so far</summary><p class="do">
        ${floor.now.flatMap(({ who }) => who).map((name) => html`<button type="button" @click=${() => this.mark({ kind: "miss", atS: nowS, who: name })}>${name} missed</button><button type="button" @click=${() => this.mark({ kind: "no-rep", atS: nowS, who: name })}>${name} no-rep</button>`)}
        ${floor.now.flatMap(({ holders }) => holders).map((name) => html`<button type="button" @click=${() => this.mark({ kind: "drop", atS: nowS, who: name })}>${name} dropped</button>`)}
        <button type="button" @click=${() => this.countReps(floor, nowS)}>Reps so far…</button>
      </p></details>${this.corner()}</div></div>`;
  }

  private lateWords({ lateS: late, expectedEndS }: FloorState): string {
    const off = Math.abs(late) <= lateS ? "on plan" : `${Math.round(Math.abs(late))} s ${late > 0 ? "behind" : "ahead of"} plan`;
    return `${off}, finish about ${clock(expectedEndS)}`;
  }

  private afterEnd(plan: FloorPlan, marks: readonly Mark[], endS: number): TemplateResult {
    return html`<div class="before"><h2>${clock(endS)}</h2><p>${plan.plan} for ${plan.event}: ${clock(plan.endS)} on paper.</p>
      <p class="do"><button type="button" class="mark" @click=${() => this.log(endS)}>Put it into the document as a log</button>
        <button type="button" ?disabled=${marks.length === 0} @click=${this.undo}>Undo the last mark</button>
        <button type="button" @click=${() => this.forget()}>Again from the start</button><button type="button" @click=${this.close}>Close</button></p></div>`;
  }

  private corner(): TemplateResult {
    return html`<details class="corner"><summary>Sound, close</summary>${this.settings()}<button type="button" @click=${() => this.forget()}>Stop and forget</button><button type="button" @click=${this.close}>Close, keep counting</button></details>`;
  }

  private settings(): TemplateResult {
    return html`<p><label><input type="checkbox" .checked=${this.tones} @change=${this.toggleTones} /> tones before a change</label>
      <label><input type="checkbox" .checked=${this.voice} ?disabled=${!("speechSynthesis" in window)} @change=${() => (this.voice = !this.voice)} /> a voice that says who is next</label></p>`;
  }

  private readonly toggleTones = (): void => {
    this.tones = !this.tones;
    // A page may sound only after a touch: this is one.
    if (this.tones) this.sound ??= new AudioContext();
  };

  private begin(startMs: number): void {
    if (!this.plan) return;
    this.keep({ plan: this.plan, startMs, marks: [], endedS: null });
    this.apart = { wallMs: 0, ownMs: 0 };
    this.said = "";
    void this.stayAwake();
    this.tick();
  }

  private tick(): void {
    const { kept } = this;
    if (!kept || kept.endedS !== null) return;
    const [wallMs, ownMs] = [Date.now(), performance.now()];
    const { apart } = this;
    const jumpS = apart.wallMs === 0 ? 0 : (wallMs - apart.wallMs - (ownMs - apart.ownMs)) / 1000;
    this.apart = { wallMs, ownMs };
    if (Math.abs(jumpS) > apartS) this.said = `This device slept or its clock was set, by ${Math.round(jumpS)} s: look whether the time is right.`;
    this.nowS = (wallMs - kept.startMs) / 1000;
    if (this.nowS >= 0) this.call(floorAt(kept.plan, kept.marks, this.nowS), kept.plan);
  }

  /** Tones in the last seconds before a change; the voice says who is next, and words for a time. */
  private call(floor: FloorState, plan: FloorPlan): void {
    const second = Math.ceil(floor.changeInS);
    const at = `${floor.now[0]?.startS} ${second}`;
    if (this.tones && second <= toneFromS && at !== this.called) this.tone(second === 0 ? 880 : 440);
    if (this.voice && second === toneFromS && at !== this.called && floor.next) say(`${said(floor.next.who)} next`);
    this.called = at;
    for (const { atS, text } of plan.calls) {
      if (!(this.heardS < atS + floor.lateS && atS + floor.lateS <= this.nowS)) continue;
      this.said = text;
      if (this.voice) say(text);
    }
    this.heardS = this.nowS;
  }

  private tone(hertz: number): void {
    const { sound } = this;
    if (!sound) return;
    const [oscillator, gain] = [sound.createOscillator(), sound.createGain()];
    oscillator.frequency.value = hertz;
    gain.gain.setValueAtTime(0.3, sound.currentTime);
    gain.gain.exponentialRampToValueAtTime(0.001, sound.currentTime + 0.25);
    oscillator.connect(gain).connect(sound.destination);
    oscillator.start();
    oscillator.stop(sound.currentTime + 0.25);
  }

  private mark(mark: Mark): void {
    if (!this.kept) return;
    this.keep({ ...this.kept, marks: [...this.kept.marks, mark] });
    this.said = "";
  }

  private countReps({ standing }: FloorState, nowS: number): void {
    const count = Number(window.prompt("Reps so far in this stage", String(standing)));
    if (Number.isInteger(count) && count > 0) this.mark({ kind: "reps", atS: nowS, count });
  }

  private readonly undo = (): void => {
    if (this.kept) this.keep({ ...this.kept, marks: this.kept.marks.slice(0, -1), endedS: null });
  };

  private end(nowS: number): void {
    if (this.kept) this.keep({ ...this.kept, endedS: nowS });
    void this.wake?.release();
  }

  private log(endS: number): void {
    if (!this.kept) return;
    const start = new Date(this.kept.startMs);
    const two = (part: number): string => String(part).padStart(2, "0");
    const date = `${start.getFullYear()}-${two(start.getMonth() + 1)}-${two(start.getDate())}`;
    const text = logText(this.kept.plan, this.kept.marks, { date, time: `${two(start.getHours())}:${two(start.getMinutes())}`, endS });
    this.dispatchEvent(new CustomEvent("log", { detail: text, bubbles: true }));
    this.forget();
    this.close();
  }

  private keep(kept: Kept): void {
    this.kept = kept;
    localStorage.setItem(storeKey, JSON.stringify(kept));
  }

  private forget(): void {
    this.kept = null;
    localStorage.removeItem(storeKey);
    void this.wake?.release();
  }

  private async stayAwake(): Promise<void> {
    try {
      this.wake = await navigator.wakeLock.request("screen");
    } catch {
      this.said = "This device does not let the page keep its screen on: set it so yourself.";
    }
  }

  private readonly close = (): void => this.querySelector("dialog")?.close();

  private readonly onClose = (): void => clearInterval(this.ticking);

  /** A presenter's two keys: next marks a change, back takes the last mark away. */
  private readonly onKey = (event: KeyboardEvent): void => {
    const { kept } = this;
    if (!kept || kept.endedS !== null || this.nowS < 0) return;
    if (event.key === "PageDown" || event.key === "ArrowRight") this.mark({ kind: "change", atS: this.nowS });
    else if (event.key === "PageUp" || event.key === "ArrowLeft") this.undo();
    else return;
    event.preventDefault();
  };
}

function said(who: FloorStep["who"]): string {
  return who.join(" + ");
}

function say(text: string): void {
  speechSynthesis.speak(new SpeechSynthesisUtterance(text));
}

/** A run of long ago is nobody's any more. */
const staleMs = 6 * 3_600_000;

/** A run that is under way, as this browser keeps it; null where there is none that can be read. */
function keptRun(): Kept | null {
  try {
    const kept: Kept | null = JSON.parse(localStorage.getItem(storeKey) ?? "null");
    return kept && typeof kept.startMs === "number" && Date.now() - kept.startMs < staleMs && Array.isArray(kept.marks) && Array.isArray(kept.plan?.steps) ? kept : null;
  } catch {
    return null;
  }
}
