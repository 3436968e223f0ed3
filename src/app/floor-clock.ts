import { html, LitElement, nothing, type TemplateResult } from "lit";
import { customElement, property, state } from "lit/decorators.js";
import { clock, counted } from "../0-base/quantity.js";
import type { Document } from "../1-text/document.js";
import { cardCaution } from "../7-view/cautions.js";
import { floorAt, type FloorPlan, type FloorState, type FloorStep, logText, type Mark } from "../7-view/floor.js";

import type { FromSearch } from "./protocol.js";
import { Searcher } from "./searcher.js";
import { rememberAs, remembered } from "./remembered.js";

const storeKey = "rotaline-floor";
const countdownS = 10;
/** Seconds before a change at which tones begin. */
const toneFromS = 3;
/** The wall clock and the device's own ran apart by this: it slept, or its clock was set. */
const apartS = 2;
/** Reps before a change that the voice calls. */
const repsCalled = 3;
/** Off the plan by more than a handover, in s and in reps: worth a word, and a look for another plan for the rest. */
const worthAWord = { time: 3, reps: 1 } as const;

/** What is kept of a run: a reload, a closed tab, a sleeping device leave it as it was. */
interface Kept {
  readonly plan: FloorPlan;
  /** Date.now() at the first second. */
  readonly startMs: number;
  readonly marks: readonly Mark[];
  readonly endedS: number | null;
  /** Whether the plan is one for the rest that was taken on the floor. */
  readonly taken: boolean;
}

type Offer = Extract<FromSearch, { kind: "rest" }>;

/**
 * The floor's clock over the whole screen: who moves now, who holds, how long to the change, who is next. It counts from
 * the wall clock. One touch, or a presenter's keys, marks a change; others what goes wrong. Tells `log` with a log block.
 */
@customElement("rota-clock")
export class FloorClock extends LitElement {
  /** A plan timed again after marks; null where the notebook has no such plan any more. */
  @property({ attribute: false }) retime: (plan: string, marks: readonly Mark[]) => Promise<FloorPlan | null> = async () => null;
  @property({ attribute: false }) documents: () => readonly Document[] = () => [];
  @state() private kept: Kept | null = null;
  /** The plan timed again after the marks; the kept one where none are. */
  @state() private timed: FloorPlan | null = null;
  @state() private offer: Offer | null = null;
  @state() private plan: FloorPlan | null = null;
  @state() private nowS = 0;
  @state() private said = "";
  @state() private tones = false;
  @state() private voice = false;
  private ticking: ReturnType<typeof setInterval> | undefined;
  private heardS = Number.NEGATIVE_INFINITY;
  private called = "";
  private calledReps = "";
  private wake: WakeLockSentinel | null = null;
  private sound: AudioContext | null = null;
  private apart = { wallMs: 0, ownMs: 0 };
  private readonly searcher = new Searcher((message) => {
    if (
      message.kind === "rest" &&
      this.kept &&
      !this.kept.taken &&
      message.plan === this.kept.plan.plan &&
      message.marks === this.kept.marks.length
    )
      this.offer = message;
  });

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
    // The worker that looks for another plan is awake before it is needed.
    this.searcher.stop();
    if (!this.kept) return;
    await this.follow();
    await this.stayAwake();
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
    if (nowS < 0)
      return html`<div class="run"><p class="far" role="timer">${Math.ceil(-nowS)}</p><p class="who">${plan.steps[0] ? said(plan.steps[0].who) : ""} first</p>${this.corner()}</div>`;
    const floor = floorAt(this.timed ?? plan, marks, nowS);
    if (endedS !== null || floor.done) return this.afterEnd(plan, marks, endedS ?? nowS);
    const [step] = floor.now;
    const names = floor.now.flatMap(({ who }) => who);
    return html`<div class="run">
      <p class="times"><span role="timer" aria-label="elapsed">${clock(Math.floor(nowS))}</span><span>${plan.capS === null ? "" : `${clock(Math.ceil(Math.max(0, plan.capS - nowS)))} left`}</span><span>${step ? `${step.stage} ${floor.standing}${step.target === null ? "" : ` of ${step.target}`}` : ""}</span></p>
      <button type="button" class="far" aria-label="Change done" title="Touch: change done" style="--letters: ${Math.max(4, ...names.map((name) => name.length))}; --lines: ${Math.max(1, names.length)}" @click=${() => this.mark({ kind: "change", atS: nowS })}>${names.map((name) => html`<span>${name}</span>`)}</button>
      <p class="change"><span class="work">${floor.now.map(({ work, holders }) => `${work}${holders.length > 0 ? ` · ${said(holders)} ${holders.length > 1 ? "hold" : "holds"}` : ""}`).join("  |  ")}</span> <span><b>${Math.ceil(floor.changeInS)}</b> s${step && floor.now.length === 1 ? `, at ${step.until}` : ""}, then ${floor.next ? said(floor.next.who) : "done"}</span></p>
      ${floor.now.flatMap(({ cues }) => cues).map((cue) => html`<p class="cue">${cue}</p>`)}
      <p class="late" role="status">${this.lateWords(floor, plan)}${this.said === "" ? "" : ` ${this.said}`}</p>
      ${this.offer ? this.offered(this.offer) : nothing}
      <div class="feet"><span class="quiet">Touch the names: change done</span>
        <button type="button" ?disabled=${marks.length === 0} @click=${this.undo}>Undo</button>
        <button type="button" @click=${() => this.end(nowS)}>Finish</button>
        <details class="mishaps"><summary>Missed, dropped, no-rep, reps so far</summary><p class="do">
        ${names.map((name) => html`<button type="button" @click=${() => this.mark({ kind: "miss", atS: nowS, who: name })}>${name} missed</button><button type="button" @click=${() => this.mark({ kind: "no-rep", atS: nowS, who: name })}>${name} no-rep</button>`)}
        ${floor.now.flatMap(({ holders }) => holders).map((name) => html`<button type="button" @click=${() => this.mark({ kind: "drop", atS: nowS, who: name })}>${name} dropped</button>`)}
        <label>reps so far <input name="reps" type="number" min="1" inputmode="numeric" value=${floor.standing} /></label><button type="button" @click=${() => this.countReps(nowS)}>Set</button>
      </p></details>${this.corner()}</div></div>`;
  }

  private lateWords({ behind, expectedEndS }: FloorState, { score: { kind, paper } }: FloorPlan): string {
    const size = Math.round(Math.abs(behind));
    const off =
      size <= worthAWord[kind]
        ? "on plan"
        : `${kind === "time" ? `${size} s` : counted(size, "rep")} ${behind > 0 ? "behind" : "ahead of"} plan`;
    return kind === "time" ? `${off}, finish about ${clock(expectedEndS)}` : `${off}, about ${counted(Math.round(paper - behind), "rep")}`;
  }

  /** Another plan for the rest, taken with one touch; nobody has to. */
  private offered({ gain, lines, floor }: Offer): TemplateResult {
    const better = floor.score.kind === "time" ? `${Math.round(gain)} s sooner` : `${counted(Math.round(gain), "rep")} more`;
    return html`<p class="offer" role="status"><button type="button" @click=${this.take}>From the next change: ${lines.join(", then ")} (${better})</button></p>`;
  }

  private readonly take = (): void => {
    const { offer, kept } = this;
    if (!offer || !kept) return;
    this.timed = null;
    this.keep({ ...kept, plan: offer.floor, taken: true });
    this.offer = null;
    this.said = "Taken. Tell everybody what comes.";
  };

  /** Has the plan timed again after the marks, and looks for a better rest where it is off. */
  private async follow(): Promise<void> {
    const { kept } = this;
    this.offer = null;
    if (!kept || kept.taken) return;
    const { plan, marks, startMs } = kept;
    const timed = marks.length === 0 ? null : await this.retime(plan.plan, marks);
    if (this.kept?.marks !== marks) return;
    // A plan whose text has changed since is not the one on the floor.
    this.timed = timed && timed.score.paper === plan.score.paper ? timed : null;
    const nowS = (Date.now() - startMs) / 1000;
    const floor = floorAt(this.timed ?? plan, marks, nowS);
    if (this.timed && Math.abs(floor.behind) > worthAWord[plan.score.kind])
      this.searcher.ask({ kind: "rest", documents: this.documents(), plan: plan.plan, marks, nowS: nowS - floor.lateS });
  }

  private afterEnd(plan: FloorPlan, marks: readonly Mark[], endS: number): TemplateResult {
    return html`<div class="before"><h2>${clock(endS)}</h2><p>${plan.plan} for ${plan.event}: ${clock(plan.endS)} on paper.</p>
      <p class="do"><label>a handover took about, s <input name="handover" type="number" min="0" max="60" inputmode="numeric" /></label><label>felt, 0 to 10 <input name="felt" type="number" min="0" max="10" inputmode="numeric" /></label><label>note <input name="note" autocomplete="off" /></label></p>
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
    this.keep({ plan: this.plan, startMs, marks: [], endedS: null, taken: false });
    [this.timed, this.offer] = [null, null];
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
    if (Math.abs(jumpS) > apartS)
      this.said = `This device slept or its clock was set, by ${Math.round(jumpS)} s: look whether the time is right.`;
    this.nowS = (wallMs - kept.startMs) / 1000;
    if (this.nowS >= 0) this.call(floorAt(this.timed ?? kept.plan, kept.marks, this.nowS), kept.plan);
  }

  /** Tones in the last seconds before a change; the voice says who is next, and words for a time. */
  private call(floor: FloorState, plan: FloorPlan): void {
    const second = Math.ceil(floor.changeInS);
    const at = `${floor.now[0]?.startS} ${second}`;
    if (this.tones && second <= toneFromS && at !== this.called) this.tone(second === 0 ? 880 : 440);
    if (this.voice && second === toneFromS && at !== this.called && floor.next) say(`${said(floor.next.who)} next`);
    this.called = at;
    // By rep as well: whoever counts hears when the last ones come.
    const left = repsLeft(floor);
    const reps = `${floor.now[0]?.startS} ${left}`;
    if (this.voice && left === repsCalled && reps !== this.calledReps) say(`${repsCalled} more`);
    this.calledReps = reps;
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
    void this.follow();
  }

  private countReps(nowS: number): void {
    const count = Number(this.querySelector<HTMLInputElement>("input[name=reps]")?.value);
    if (Number.isInteger(count) && count > 0) this.mark({ kind: "reps", atS: nowS, count });
  }

  private readonly undo = (): void => {
    if (!this.kept) return;
    this.keep({ ...this.kept, marks: this.kept.marks.slice(0, -1), endedS: null });
    void this.follow();
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
    const typed = (name: string): string => this.querySelector<HTMLInputElement>(`input[name=${name}]`)?.value ?? "";
    const whole = (name: string, most: number): number | null =>
      typed(name) === "" ? null : Math.min(most, Math.max(0, Math.round(Number(typed(name)))));
    const text = logText(this.kept.plan, this.kept.marks, {
      date,
      time: `${two(start.getHours())}:${two(start.getMinutes())}`,
      endS,
      felt: whole("felt", 10),
      handoverS: whole("handover", 60),
      note: typed("note"),
    });
    this.dispatchEvent(new CustomEvent("log", { detail: text, bubbles: true }));
    this.forget();
    this.close();
  }

  private keep(kept: Kept): void {
    this.kept = kept;
    rememberAs(storeKey, JSON.stringify(kept));
  }

  private forget(): void {
    this.kept = null;
    rememberAs(storeKey, null);
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

/** Reps to the change, where one athlete alone is under way with reps; 0 where that cannot be said. */
function repsLeft({ now, standing }: FloorState): number {
  const [step, other] = now;
  return step && !other && step.who.length === 1 && !/round/.test(step.work) ? Math.max(0, step.until - standing) : 0;
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
    const kept: Kept | null = JSON.parse(remembered(storeKey) ?? "null");
    return kept &&
      typeof kept.startMs === "number" &&
      Date.now() - kept.startMs < staleMs &&
      Array.isArray(kept.marks) &&
      Array.isArray(kept.plan?.steps)
      ? kept
      : null;
  } catch {
    return null;
  }
}
