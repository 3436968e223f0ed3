import { type ChangeDesc, type Extension, MapMode, type Range, RangeSet, RangeValue } from "@codemirror/state";
import { type BlockInfo, Decoration, type DecorationSet, EditorView, keymap, ViewPlugin, type ViewUpdate } from "@codemirror/view";
import type { About } from "../7-view/answer.js";

/** What stands beside the line that begins at `offset`. */
export interface ShownAnswer {
  readonly offset: number;
  readonly shown: string;
  /** True where a number in it is assumed. */
  readonly assumed: boolean;
  readonly about: About;
}

/** Everything said of a stretch of the document, in place of what was said of it. */
export interface AnswerUpdate {
  readonly from: number;
  readonly to: number;
  readonly answers: readonly ShownAnswer[];
}

/** An answer at the start of its line; it goes when the line is joined to the one before. */
class AnswerMark extends RangeValue {
  override startSide = -1;
  override endSide = -1;
  override mapMode = MapMode.TrackBefore;

  constructor(readonly answer: Omit<ShownAnswer, "offset">) {
    super();
  }
}

type Marks = RangeSet<AnswerMark>;

function replace(marks: Marks, { from, to, answers }: AnswerUpdate, length: number): Marks {
  const add: Range<AnswerMark>[] = answers.filter(({ offset }) => offset <= length).map(({ offset, ...answer }) => new AnswerMark(answer).range(offset));
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
export function shownAnswers(view: EditorView): ReadonlyMap<number, string> {
  const found = new Map<number, string>();
  view.plugin(column)?.marks.between(0, view.state.doc.length, (at, _to, { answer }) => void found.set(view.state.doc.lineAt(at).from, answer.shown));
  return found;
}

/** Under this width there is no room beside the text: answers go under their lines. */
const narrow = "(max-width: 45em)";

/** A place in the column, used again for another line when the text scrolls. */
interface Cell {
  readonly element: HTMLElement;
  readonly text: Text;
  mark: AnswerMark | null;
  top: number;
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
  private readonly cells: Cell[] = [];
  private readonly media = window.matchMedia(narrow);
  /** Kept, since asking the window at every key would make it lay out the page. */
  private isNarrow = this.media.matches;
  private readonly turned: () => void;

  constructor(private readonly view: EditorView, pointed: Explains["pointed"]) {
    this.layer.className = "rota-answers";
    this.layer.setAttribute("aria-hidden", "true");
    this.layer.addEventListener("mouseover", ({ target, clientY }) => {
      if (target !== this.layer) pointed(view.lineBlockAtHeight(clientY - view.documentTop).from);
    });
    this.layer.addEventListener("mouseout", () => pointed(null));
    view.scrollDOM.append(this.layer);
    this.turned = () => {
      this.isNarrow = this.media.matches;
      view.dispatch({});
    };
    this.media.addEventListener("change", this.turned);
  }

  update({ changes, docChanged, geometryChanged, viewportChanged }: ViewUpdate): void {
    if (docChanged) this.marks = this.marks.map(changes);
    if (this.isNarrow || this.decorations.size > 0) this.decorations = this.isNarrow ? this.linesBelow() : Decoration.none;
    if (docChanged || geometryChanged || viewportChanged) this.view.requestMeasure({ key: this, read: () => this.view.viewportLineBlocks, write: (blocks) => this.place(blocks) });
  }

  destroy(): void {
    this.media.removeEventListener("change", this.turned);
    this.layer.remove();
  }

  say(updates: readonly AnswerUpdate[], whole: boolean): void {
    const { doc } = this.view.state;
    this.marks = updates.reduce((marks, update) => replace(marks, update, doc.length), whole ? RangeSet.empty : this.marks);
    if (this.isNarrow) this.view.dispatch({});
    else this.place(this.view.viewportLineBlocks);
  }

  private place(blocks: readonly BlockInfo[]): void {
    const { top: above } = this.view.documentPadding;
    const mark = this.marks.iter(blocks[0]?.from ?? 0);
    let used = 0;
    for (const { from, to, top } of blocks) {
      while (mark.value && mark.from < from) mark.next();
      if (!mark.value) break;
      if (mark.from > to) continue;
      show(this.cell(used), mark.value, Math.round(above + top));
      used += 1;
    }
    for (const cell of this.cells.slice(used)) show(cell, null, 0);
  }

  private cell(at: number): Cell {
    const known = this.cells[at];
    if (known) return known;
    const cell = { element: document.createElement("span"), text: document.createTextNode(""), mark: null, top: -1 };
    cell.element.append(cell.text);
    this.layer.append(cell.element);
    this.cells.push(cell);
    return cell;
  }

  private linesBelow(): DecorationSet {
    const found: Range<Decoration>[] = [];
    for (const { from, to } of this.view.visibleRanges) {
      this.marks.between(from, to, (at, _to, { answer }) => {
        found.push(Decoration.line({ attributes: { "data-answer": answer.shown, "data-about": answer.about } }).range(this.view.state.doc.lineAt(at).from));
      });
    }
    return Decoration.set(found, true);
  }
}

/** Touches only what differs: an answer said again in the same words costs no style and no layout. */
function show(cell: Cell, mark: AnswerMark | null, top: number): void {
  const { element, text } = cell;
  const [before, now] = [cell.mark?.answer, mark?.answer];
  if (now?.shown !== before?.shown) text.data = now?.shown ?? "";
  if (now?.assumed !== before?.assumed) element.classList.toggle("rota-assumed", now?.assumed ?? false);
  if (now && now.about !== before?.about) element.dataset.about = now.about;
  if (!now !== !before) element.hidden = !now;
  if (now && top !== cell.top) element.style.top = `${top}px`;
  cell.mark = mark;
  cell.top = top;
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
