import { html, LitElement, type TemplateResult } from "lit";
import { customElement, state } from "lit/decorators.js";
import { rememberAs, remembered } from "./remembered.js";

const storeKey = "rotaline-room";
/** Of the page, in percent: what the picture may take, and a step by key. */
const [least, most, step] = [15, 70, 3];

interface Room {
  readonly place: "beside" | "below";
  /** Percent of the width, or of the height; null as the page likes it. */
  readonly beside: number | null;
  readonly below: number | null;
}

/**
 * How much room the picture has: beside the text or under it over the whole width, as wide or high as it is drawn, or over the
 * whole screen. It is the picture's own part of the page that changes, and what was chosen is kept.
 */
@customElement("rota-room")
export class PictureRoom extends LitElement {
  @state() private room: Room = keptRoom();
  @state() private whole = false;

  override createRenderRoot(): HTMLElement {
    return this;
  }

  override connectedCallback(): void {
    super.connectedCallback();
    window.addEventListener("keydown", this.onKey);
    this.settle();
  }

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    window.removeEventListener("keydown", this.onKey);
  }

  override render(): TemplateResult {
    const {
      room: { place },
      whole,
    } = this;
    const now = this.room[place] ?? (place === "beside" ? 24 : 34);
    return html`<div class="edge" role="separator" tabindex="0" aria-orientation=${place === "beside" ? "vertical" : "horizontal"} aria-label="Edge of the picture: arrow keys move it" aria-valuemin=${least} aria-valuemax=${most} aria-valuenow=${Math.round(now)}
        @keydown=${this.onEdgeKey} @pointerdown=${this.onDown} @pointermove=${this.onMove} @pointerup=${this.onUp}></div>
      <p class="room"><button type="button" title="Alt+Shift+P" @click=${this.turn}>${place === "beside" ? "Under the text" : "Beside the text"}</button><button type="button" aria-pressed=${whole} title="Alt+Shift+W" @click=${this.toggleWhole}>Whole screen</button></p>`;
  }

  private readonly turn = (): void => this.become({ ...this.room, place: this.room.place === "beside" ? "below" : "beside" });

  private readonly toggleWhole = (): void => {
    this.whole = !this.whole;
    this.parentElement?.classList.toggle("whole", this.whole);
  };

  private readonly onKey = (event: KeyboardEvent): void => {
    if (event.altKey && event.shiftKey && event.code === "KeyP") this.turn();
    else if ((event.altKey && event.shiftKey && event.code === "KeyW") || (event.key === "Escape" && this.whole)) this.toggleWhole();
    else return;
    event.preventDefault();
  };

  private readonly onEdgeKey = (event: KeyboardEvent): void => {
    const by = { ArrowLeft: step, ArrowUp: step, ArrowRight: -step, ArrowDown: -step }[event.key];
    if (by === undefined) return;
    event.preventDefault();
    const now = Number(this.querySelector("[role=separator]")?.getAttribute("aria-valuenow"));
    this.size(now + by);
  };

  private readonly onDown = (event: PointerEvent): void => {
    if (event.currentTarget instanceof Element) event.currentTarget.setPointerCapture(event.pointerId);
  };

  private readonly onMove = (event: PointerEvent): void => {
    const around = this.closest("main")?.getBoundingClientRect();
    if (!around || !(event.currentTarget instanceof Element) || !event.currentTarget.hasPointerCapture(event.pointerId)) return;
    this.size(
      this.room.place === "beside"
        ? (100 * (around.right - event.clientX)) / around.width
        : (100 * (around.bottom - event.clientY)) / around.height,
    );
  };

  private readonly onUp = (event: PointerEvent): void => {
    if (event.currentTarget instanceof Element) event.currentTarget.releasePointerCapture(event.pointerId);
  };

  private size(percent: number): void {
    this.become({ ...this.room, [this.room.place]: Math.min(most, Math.max(least, percent)) });
  }

  private become(room: Room): void {
    this.room = room;
    rememberAs(storeKey, JSON.stringify(room));
    this.settle();
  }

  private settle(): void {
    const main = this.closest("main");
    if (!main) return;
    const { place, beside, below } = this.room;
    main.dataset.picture = place;
    if (beside !== null) main.style.setProperty("--aside", `${beside}%`);
    if (below !== null) main.style.setProperty("--strip", `${below}%`);
  }
}

function keptRoom(): Room {
  const none: Room = { place: "beside", beside: null, below: null };
  try {
    const kept: Partial<Room> | null = JSON.parse(remembered(storeKey) ?? "null");
    const size = (value: unknown): number | null => (typeof value === "number" && value >= least && value <= most ? value : null);
    return kept ? { place: kept.place === "below" ? "below" : "beside", beside: size(kept.beside), below: size(kept.below) } : none;
  } catch {
    return none;
  }
}
