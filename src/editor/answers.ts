import { type ChangeDesc, type Extension, type Range, RangeSet, StateEffect, StateField } from "@codemirror/state";
import { Decoration, type DecorationSet, EditorView, gutter, GutterMarker, keymap, ViewPlugin, type ViewUpdate } from "@codemirror/view";

/** What stands beside the line that begins at `offset`. */
export interface ShownAnswer {
  readonly offset: number;
  readonly shown: string;
  /** True where a number in it is assumed. */
  readonly assumed: boolean;
}

/** Everything said of a stretch of the document, in place of what was said of it. */
export interface AnswerUpdate {
  readonly from: number;
  readonly to: number;
  readonly answers: readonly ShownAnswer[];
}

class AnswerMarker extends GutterMarker {
  constructor(readonly answer: Omit<ShownAnswer, "offset">) {
    super();
  }

  override eq(other: AnswerMarker): boolean {
    return other.answer.shown === this.answer.shown && other.answer.assumed === this.answer.assumed;
  }

  override toDOM(): Node {
    const element = document.createElement("span");
    element.className = this.answer.assumed ? "rota-answer rota-assumed" : "rota-answer";
    element.textContent = this.answer.shown;
    return element;
  }
}

const say = StateEffect.define<readonly AnswerUpdate[]>();
const forget = StateEffect.define<null>();

const field = StateField.define<RangeSet<AnswerMarker>>({
  create: () => RangeSet.empty,
  update(markers, transaction) {
    let now = markers.map(transaction.changes);
    for (const effect of transaction.effects) {
      if (effect.is(forget)) now = RangeSet.empty;
      if (effect.is(say)) for (const update of effect.value) now = replace(now, update, transaction.newDoc.length);
    }
    return now;
  },
});

function replace(markers: RangeSet<AnswerMarker>, { from, to, answers }: AnswerUpdate, length: number): RangeSet<AnswerMarker> {
  const add: Range<AnswerMarker>[] = answers.filter(({ offset }) => offset <= length).map(({ offset, ...answer }) => new AnswerMarker(answer).range(offset));
  return markers.update({ filterFrom: from, filterTo: Math.min(to, length), filter: (at) => at < from || at > to, add, sort: true });
}

/** Puts new answers beside their lines; positions as of a version `since` which the document has changed. */
export function showAnswers(view: EditorView, updates: readonly AnswerUpdate[], whole: boolean, since: ChangeDesc | null): void {
  const map = (offset: number, side: -1 | 1): number => (since ? since.mapPos(offset, side) : offset);
  const mapped = updates.map(({ from, to, answers }) => ({
    from: map(from, -1),
    to: map(to, 1),
    answers: answers.map((answer) => ({ ...answer, offset: map(answer.offset, -1) })),
  }));
  view.dispatch({ effects: whole ? [forget.of(null), say.of(mapped)] : say.of(mapped) });
}

/** Under this width there is no room beside the text: answers go under their lines. */
const narrow = "(max-width: 720px)";

/** Under each visible line, by a line attribute that the style sheet prints: not part of the text, nor of what is copied. */
const below = ViewPlugin.fromClass(
  class {
    decorations: DecorationSet = Decoration.none;
    private readonly media = window.matchMedia(narrow);
    /** Kept, since asking the window at every key would make it lay out the page. */
    private isNarrow = this.media.matches;
    private readonly turned: () => void;
    constructor(view: EditorView) {
      this.turned = () => {
        this.isNarrow = this.media.matches;
        view.dispatch({});
      };
      this.media.addEventListener("change", this.turned);
      this.decorations = this.lines(view);
    }
    update({ view }: ViewUpdate): void {
      if (this.isNarrow || this.decorations.size > 0) this.decorations = this.lines(view);
    }
    destroy(): void {
      this.media.removeEventListener("change", this.turned);
    }
    private lines(view: EditorView): DecorationSet {
      return this.isNarrow ? linesBelow(view) : Decoration.none;
    }
  },
  { decorations: (plugin) => plugin.decorations },
);

function linesBelow(view: EditorView): DecorationSet {
  const found: Range<Decoration>[] = [];
  for (const { from, to } of view.visibleRanges) {
    view.state.field(field).between(from, to, (at, _to, { answer }) => {
      found.push(Decoration.line({ attributes: { "data-answer": answer.shown } }).range(view.state.doc.lineAt(at).from));
    });
  }
  return Decoration.set(found, true);
}

/** Answers beside the text: in a gutter where there is room, else under the lines. Alt+A tells a screen reader `readOut`. */
export function answers(readOut: () => string): Extension {
  const announce = (view: EditorView): boolean => {
    view.dispatch({ effects: EditorView.announce.of(readOut()) });
    return true;
  };
  return [
    field,
    gutter({ class: "rota-answers", side: "after", markers: (view) => view.state.field(field), initialSpacer: () => new AnswerMarker({ shown: "0:00–0:00 · 000 of 000", assumed: false }) }),
    below,
    keymap.of([{ key: "Alt-a", run: announce }]),
  ];
}
