import { type ChangeDesc, type Extension, MapMode, type Range, RangeSet, RangeValue } from "@codemirror/state";
import { type BlockInfo, Decoration, type DecorationSet, EditorView, keymap, ViewPlugin, type ViewUpdate } from "@codemirror/view";
import type { PlacedAnswer } from "../7-view/said.js";
import { brief, type Field, columns, headHelp, type Row, type Table } from "../7-view/columns.js";

/** Everything said of a stretch of the document, in place of what was said of it. */
export interface AnswerUpdate {
  readonly from: number;
  readonly to: number;
  readonly answers: readonly PlacedAnswer[];
}

/** An answer at the start of its line; it goes when the line is joined to the one before. */
class AnswerMark extends RangeValue {
  override startSide = -1;
  override endSide = -1;
  override mapMode = MapMode.TrackBefore;

  constructor(readonly answer: Omit<PlacedAnswer, "offset">) {
    super();
  }
}

type Marks = RangeSet<AnswerMark>;

function replace(marks: Marks, { from, to, answers }: AnswerUpdate, length: number): Marks {
  const add: Range<AnswerMark>[] = answers
    .filter(({ offset }) => offset <= length)
    .map(({ offset, ...answer }) => new AnswerMark(answer).range(offset));
  return marks.update({ filterFrom: from, filterTo: Math.min(to, length), filter: (at) => at < from || at > to, add, sort: true });
}

/** Puts new answers beside their lines; positions as of a version `since` which the document has changed. */
export function showAnswers(view: EditorView, updates: readonly AnswerUpdate[], whole: boolean, since: ChangeDesc | null): void {
  const map = (offset: number, side: -1 | 1): number => (since ? since.mapPos(offset, side) : offset);
  const mapped = updates.map(({ from, to, answers }) => ({
    from: map(from, -1),
    to: map(to, 1),
    answers: answers.map((answer) => ({ ...answer, offset: map(answer.offset, -1) })),
  }));
  view.plugin(column)?.say(mapped, whole);
}

/** Every answer of the document by the offset of its line, for a print or a table of them. */
export function shownAnswers(view: EditorView): ReadonlyMap<number, { readonly shown: string; readonly row: Row | null }> {
  const found = new Map<number, { readonly shown: string; readonly row: Row | null }>();
  view
    .plugin(column)
    ?.marks.between(
      0,
      view.state.doc.length,
      (at, _to, { answer }) => void found.set(view.state.doc.lineAt(at).from, { shown: answer.shown, row: answer.row ?? null }),
    );
  return found;
}

/** Under this width there is no room beside the text: answers go under their lines. */
export const narrow = "(max-width: 45em)";

/** Words beside a line take at most as many lines, where the lines under it have no answer. */
const mostLines = 3;

/** Answers of no more letters than this find room in a narrow column. */
const fewLetters = 44;

/** A place beside the text, used again for another line when the text scrolls. */
interface Place {
  readonly element: HTMLElement;
  mark: AnswerMark | null;
  top: number;
  /** Lines down to the next answer, which words may fill. */
  lines: number;
}

/**
 * The answers of the visible lines. Beside the text they stand in a layer over the scroller, outside the state and the
 * text's own layout: the cheapest of the ways measured, since a key touches none of it. Under the lines, on narrow
 * screens, they are a line attribute that the style sheet prints. Neither is part of the text, nor of what is copied.
 */
class Column {
  marks: Marks = RangeSet.empty;
  decorations: DecorationSet = Decoration.none;
  private readonly layer = document.createElement("div");
  /** The heads of the columns, which stay in sight. */
  private readonly heads = document.createElement("div");
  private headed: Table | null = null;
  /** Whether any answer of the document is a row of a table, or a long sentence. */
  private wide = false;
  private readonly places: Place[] = [];
  private readonly media = window.matchMedia(narrow);
  /** Kept, since asking the window at every key would make it lay out the page. */
  private isNarrow = this.media.matches;
  private readonly turned: () => void;

  constructor(
    private readonly view: EditorView,
    pointed: Explains["pointed"],
  ) {
    this.layer.className = "rota-answers";
    this.layer.setAttribute("aria-hidden", "true");
    this.layer.addEventListener("mouseover", ({ target }) => {
      // Words may fill lines below their own: the first is theirs.
      const place = target instanceof Element ? target.closest(".rota-answers > span") : null;
      if (place) pointed(view.lineBlockAtHeight(place.getBoundingClientRect().top + 2 - view.documentTop).from);
    });
    this.layer.addEventListener("mouseout", () => pointed(null));
    this.heads.className = "rota-heads";
    this.heads.setAttribute("aria-hidden", "true");
    view.scrollDOM.append(this.layer, this.heads);
    this.turned = () => {
      this.isNarrow = this.media.matches;
      view.dispatch({});
    };
    this.media.addEventListener("change", this.turned);
  }

  update({ changes, docChanged, geometryChanged, viewportChanged }: ViewUpdate): void {
    if (docChanged) this.marks = this.marks.map(changes);
    if (this.isNarrow || this.decorations.size > 0) this.decorations = this.isNarrow ? this.linesBelow() : Decoration.none;
    if (docChanged || geometryChanged || viewportChanged)
      this.view.requestMeasure({ key: this, read: () => this.view.viewportLineBlocks, write: (blocks) => this.place(blocks) });
  }

  destroy(): void {
    this.media.removeEventListener("change", this.turned);
    this.layer.remove();
    this.heads.remove();
  }

  say(updates: readonly AnswerUpdate[], whole: boolean): void {
    const { doc } = this.view.state;
    this.marks = updates.reduce((marks, update) => replace(marks, update, doc.length), whole ? RangeSet.empty : this.marks);
    // Answers that are few words leave the room to the text.
    this.wide =
      (this.wide && !whole) ||
      updates.some(({ answers: said }) => said.some(({ row, shown }) => row !== undefined || shown.length > fewLetters));
    this.view.dom.dataset.room = this.wide ? "wide" : "narrow";
    // An answer off the screen is no reason to draw, nor to disturb what is offered at the cursor.
    if (this.isNarrow) {
      if (!RangeSet.eq([this.linesBelow()], [this.decorations])) this.view.dispatch({});
    } else this.place(this.view.viewportLineBlocks);
  }

  private place(blocks: readonly BlockInfo[]): void {
    const { top: above } = this.view.documentPadding;
    const mark = this.marks.iter(blocks[0]?.from ?? 0);
    const found: { readonly mark: AnswerMark; readonly top: number }[] = [];
    for (const { from, to, top } of blocks) {
      while (mark.value && mark.from < from) mark.next();
      if (!mark.value) break;
      if (mark.from <= to) found.push({ mark: mark.value, top: Math.round(above + top) });
    }
    const { defaultLineHeight } = this.view;
    found.forEach((one, at) =>
      show(
        this.placeAt(at),
        one.mark,
        one.top,
        Math.min(mostLines, Math.round(((found[at + 1]?.top ?? Infinity) - one.top) / defaultLineHeight)),
      ),
    );
    for (const place of this.places.slice(found.length)) show(place, null, 0, 1);
    this.head(found.find((one) => one.mark.answer.row)?.mark.answer.row?.table ?? null);
  }

  /** The heads of the first table on the screen. */
  private head(table: Table | null): void {
    if (table === this.headed) return;
    this.headed = table;
    this.heads.dataset.table = table ?? "";
    this.heads.replaceChildren(
      ...(table ? columns[table] : []).map((name) => {
        const head = document.createElement("span");
        head.dataset.column = name;
        head.textContent = name;
        head.title = headHelp[name];
        return head;
      }),
    );
  }

  private placeAt(at: number): Place {
    const known = this.places[at];
    if (known) return known;
    const place = { element: document.createElement("span"), mark: null, top: -1, lines: 1 };
    this.layer.append(place.element);
    this.places.push(place);
    return place;
  }

  private linesBelow(): DecorationSet {
    const found: Range<Decoration>[] = [];
    for (const { from, to } of this.view.visibleRanges) {
      this.marks.between(from, to, (at, _to, { answer }) => {
        found.push(
          Decoration.line({
            attributes: { "data-answer": answer.row ? brief(answer.row) : answer.shown, "data-about": answer.about },
          }).range(this.view.state.doc.lineAt(at).from),
        );
      });
    }
    return Decoration.set(found, true);
  }
}

/** Touches only what differs: an answer said again in the same words costs no style and no layout. */
function show(place: Place, mark: AnswerMark | null, top: number, lines: number): void {
  const { element } = place;
  const [before, now] = [place.mark?.answer, mark?.answer];
  if (now && (now.shown !== before?.shown || worstOf(now.row) !== worstOf(before?.row))) {
    element.replaceChildren(...(now.row ? now.row.cells.map((cell) => field(cell)) : [now.shown]));
    element.dataset.table = now.row?.table ?? "";
  }
  if (now?.assumed !== before?.assumed) element.classList.toggle("rota-assumed", now?.assumed ?? false);
  if (now && now.about !== before?.about) element.dataset.about = now.about;
  if (!now !== !before) element.hidden = !now;
  if (now && top !== place.top) element.style.top = `${top}px`;
  if (now && lines !== place.lines) element.style.setProperty("--lines", String(lines));
  place.mark = mark;
  place.top = top;
  place.lines = lines;
}

function worstOf(row: Row | undefined): string {
  return (
    row?.cells
      .filter(({ worst }) => worst)
      .map(({ column: name }) => name)
      .join() ?? ""
  );
}

function field({ column: name, through, text, bar, shares, worst }: Field): HTMLElement {
  const element = document.createElement("span");
  element.dataset.column = name;
  if (through) element.dataset.through = through;
  if (worst) element.className = "rota-worst";
  if (shares) {
    element.append(
      ...shares.map((share) => {
        const part = document.createElement("i");
        part.style.flexGrow = String(share.value);
        part.textContent = String(share.value);
        part.title = `${share.name} ${share.value}`;
        return part;
      }),
    );
    return element;
  }
  element.append(text);
  if (bar !== undefined) {
    element.classList.add("rota-left");
    element.style.setProperty("--part", String(Math.min(1, Math.max(0, bar))));
  }
  return element;
}

const column = ViewPlugin.fromClass<Column, Explains["pointed"]>(Column, { decorations: ({ decorations }) => decorations });

/** What the answers ask of the page around them. */
export interface Explains {
  /** What a screen reader hears of the cursor's line. */
  readonly readOut: () => string;
  /** The pointer is at the answer of the line that holds this offset; null where it has left. */
  readonly pointed: (offset: number | null) => void;
}

/** Answers beside the text where there is room, else under the lines. Alt+A tells a screen reader of the cursor's line. */
export function answers({ readOut, pointed }: Explains): Extension {
  const announce = (view: EditorView): boolean => {
    view.dispatch({ effects: EditorView.announce.of(readOut()) });
    return true;
  };
  return [column.of(pointed), keymap.of([{ key: "Alt-a", run: announce }])];
}
