import { html, LitElement, nothing, type PropertyValues, type TemplateResult } from "lit";
import { customElement, property, state } from "lit/decorators.js";
import { freeName } from "../3-plan/names.js";
import { eventText, teamText } from "../7-view/begun-text.js";
import { eventKinds } from "../7-view/event-kinds.js";
import type { FirstStep } from "../7-view/first-steps.js";

/** Text to go to the end of the document, and what of it is selected then: what the coach replaces first. */
export interface Beginning {
  readonly text: string;
  readonly select: string;
}

/**
 * What a notebook without a plan offers next: a team, an event, a table of tests, a first plan. Each leaves text, the cursor and the
 * next offer. Tells `put` with a beginning, `demo`, `file`, and `wanted` with an event that a plan is wanted for.
 */
@customElement("rota-first")
export class FirstMinute extends LitElement {
  @property({ attribute: false }) step: FirstStep | null = null;
  /** Nothing stands in the document yet: the offer stands in the middle. */
  @property({ type: Boolean, reflect: true }) empty = false;
  /** The text of a plan that was suggested; null while none is. */
  @property({ attribute: false }) suggested: string | null = null;
  @state() private form = false;
  @state() private wrong = "";
  /** Steps that the coach leaves for later, and whether all of it was sent away. */
  @state() private later = false;
  @state() private away = false;
  private wanted = "";

  override createRenderRoot(): HTMLElement {
    return this;
  }

  override willUpdate(changed: PropertyValues<this>): void {
    const event = this.step?.lacks === "plan" ? this.step.event : "";
    // A plan is looked for as soon as there is all that it takes; not on a page that is opened so.
    if (changed.has("step") && event !== "" && event !== this.wanted && changed.get("step")) this.want(event);
  }

  /** Brings the keyboard here. */
  override focus(): void {
    this.away = false;
    void this.updateComplete.then(() => this.querySelector<HTMLElement>(this.form ? "input" : "button")?.focus());
  }

  override render(): TemplateResult | typeof nothing {
    const { step, later, away } = this;
    if (!step || away) return nothing;
    return html`<section aria-label="The next step">
      ${step.lacks === "team" ? this.team() : step.lacks === "event" ? this.event(step.taken) : step.lacks === "tests" && !later ? this.tests(step.table) : this.plan(step.event)}
      ${this.empty ? nothing : html`<p class="quiet"><kbd>Alt+Shift+N</kbd> comes here. <button type="button" class="plain" @click=${() => (this.away = true)}>Not now</button></p>`}
    </section>`;
  }

  private team(): TemplateResult {
    if (this.form) return this.teamForm();
    return html`<h3>${this.empty ? "Begin with your team" : "Who competes?"}</h3>
      <p class="buttons"><button type="button" @click=${this.openForm}>A team…</button>
        ${this.empty ? html`<button type="button" @click=${() => this.tell("demo", null)}>Look at the demo</button><button type="button" @click=${() => this.tell("file", null)}>Open a file…</button>` : nothing}</p>
      ${this.empty ? html`<p class="quiet">Or drop a file or a table of tests here, paste cells of a spreadsheet, or just type.</p>` : nothing}`;
  }

  private teamForm(): TemplateResult {
    return html`<form @submit=${this.onTeam}>
      <h3>The team</h3>
      <label>Its name<input name="name" autocomplete="off" spellcheck="false" /></label>
      <label>Women, with a comma between<input name="women" autocomplete="off" spellcheck="false" /></label>
      <label>Men, with a comma between<input name="men" autocomplete="off" spellcheck="false" /></label>
      <p class="wrong" role="alert">${this.wrong}</p>
      <p class="buttons"><button type="submit">Write it down</button><button type="button" @click=${() => (this.form = false)}>Leave it</button></p>
    </form>`;
  }

  private event(taken: readonly string[]): TemplateResult {
    const name = freeName("My Event", new Map(taken.map((one) => [one, one])));
    return html`<h3>Now the event: which is nearest to what was published?</h3>
      <ul>${eventKinds.map((kind) => html`<li><button type="button" @click=${() => this.put({ text: `${eventText(kind, name)}\n`, select: name })}>${kind.name}</button> <span class="quiet">${kind.says}</span></li>`)}</ul>`;
  }

  private tests(table: string): TemplateResult {
    return html`<h3>What can they do? What is not tested is assumed, and looks assumed.</h3>
      <p class="buttons"><button type="button" @click=${() => this.put({ text: table, select: "-" })}>A table to fill in</button><button type="button" @click=${this.leaveTests}>Later: assume all of it</button></p>`;
  }

  private plan(event: string): TemplateResult {
    const { suggested } = this;
    return html`<h3>${suggested === null ? `A first plan for ${event}` : `A plan for ${event} is found`}</h3>
      <p class="buttons">${
        suggested === null
          ? html`<button type="button" @click=${() => this.want(event)}>${this.wanted === event ? "Looking…" : "Suggest one"}</button>`
          : html`<button type="button" @click=${() => this.put({ text: suggested, select: "" })}>Put it into the document</button><span class="quiet">It stands with its reasons in the picture pane, others beside it.</span>`
      }</p>`;
  }

  private readonly openForm = (): void => {
    this.form = true;
    this.focus();
  };

  private readonly onTeam = (event: Event): void => {
    event.preventDefault();
    const given = event.target instanceof HTMLFormElement ? new FormData(event.target) : new FormData();
    const names = (field: string): readonly string[] =>
      String(given.get(field) ?? "")
        .split(/[\s,;+]+/)
        .filter(Boolean);
    const [women, men] = [names("women"), names("men")];
    const all = [...women, ...men];
    const twice = all.find((name, at) => all.indexOf(name) !== at);
    this.wrong =
      all.length < 2
        ? "Write at least two athletes; a name is one word."
        : twice !== undefined
          ? `${twice} stands there twice: give one of them an initial.`
          : "";
    if (this.wrong !== "") return;
    this.form = false;
    this.put({ text: teamText(String(given.get("name") ?? "").trim() || "My Team", women, men), select: "" });
  };

  private readonly leaveTests = (): void => {
    this.later = true;
    if (this.step?.lacks === "tests") this.want(this.step.event);
  };

  private want(event: string): void {
    this.wanted = event;
    this.tell("wanted", event);
  }

  private put(beginning: Beginning): void {
    this.tell("put", beginning);
  }

  private tell(type: string, detail: unknown): void {
    this.dispatchEvent(new CustomEvent(type, { detail, bubbles: true }));
  }
}
