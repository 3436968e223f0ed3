import {
  autocompletion,
  type Completion as Option,
  type CompletionContext,
  type CompletionResult,
  snippet,
} from "@codemirror/autocomplete";
import { type Extension, Prec } from "@codemirror/state";
import { EditorView, hoverTooltip, keymap } from "@codemirror/view";
import type { Completion, Completions } from "../7-view/completion.js";
import type { Help } from "../7-view/name-help.js";

/** What the editor asks of the notebook around it; offsets are of the text as it stands. */
export interface Helps {
  readonly complete: (offset: number) => Promise<Completions | null>;
  readonly help: (offset: number) => Promise<Help | null>;
  readonly goToDeclaration: (offset: number) => void;
  readonly renameName: (offset: number) => void;
  readonly format: () => void;
  /** Takes a change of several documents back where it was the last; false where it was not. */
  readonly undoWhole: () => boolean;
}

const types: Readonly<Record<Completion["sort"], string>> = { name: "variable", word: "keyword", block: "class" };

/** Completion that knows where it stands, help under the pointer, and keys for names: F2 renames, F12 goes to the declaration. */
export function help({ complete, help: helpFor, goToDeclaration, renameName, format, undoWhole }: Helps): Extension {
  const source = async (context: CompletionContext): Promise<CompletionResult | null> => {
    // A digit or a blank asks for nothing: only letters do, and the key.
    if (!context.explicit && !context.matchBefore(/\p{L}[\p{L}\p{N}_'-]*$/u)) return null;
    const found = await complete(context.pos);
    return found && !context.aborted ? { from: found.from, options: found.options.map(optionOf), filter: false } : null;
  };
  const at =
    (run: (offset: number) => void) =>
    (view: EditorView): boolean => {
      run(view.state.selection.main.head);
      return true;
    };
  return [
    autocompletion({ override: [source], icons: false }),
    hoverTooltip(async (_view, offset) => {
      const found = await helpFor(offset);
      return found && { pos: found.span.from, end: found.span.to, above: true, create: () => ({ dom: tip(found) }) };
    }),
    EditorView.domEventHandlers({
      click: (event, view) => {
        const offset = event.ctrlKey || event.metaKey ? view.posAtCoords({ x: event.clientX, y: event.clientY }) : null;
        if (offset !== null) goToDeclaration(offset);
        return offset !== null;
      },
    }),
    Prec.high(keymap.of([{ key: "Mod-z", run: undoWhole }])),
    keymap.of([
      { key: "F12", run: at(goToDeclaration) },
      { key: "F2", run: at(renameName) },
      { key: "Shift-Alt-f", run: at(format) },
    ]),
  ];
}

function optionOf({ label, detail, insert, sort }: Completion): Option {
  return { label, detail, type: types[sort], apply: insert.includes("#{") ? snippet(numbered(insert)) : insert };
}

/** The places of a snippet in the order of the text, the same word being the same place. */
function numbered(text: string): string {
  const places: string[] = [];
  return text.replace(/#\{([^}]*)\}/g, (_, word: string) => {
    if (!places.includes(word)) places.push(word);
    return `#{${places.indexOf(word) + 1}:${word}}`;
  });
}

function tip({ title, text }: Help): HTMLElement {
  const box = document.createElement("div");
  box.className = "rota-tip";
  const head = document.createElement("b");
  head.textContent = title;
  const said = document.createElement("p");
  said.textContent = text;
  box.append(head, said);
  return box;
}
