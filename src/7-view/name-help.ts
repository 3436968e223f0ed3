import type { Span } from "../0-base/span.js";
import { counted } from "../0-base/quantity.js";
import { type Document, lineStarts, position } from "../1-text/document.js";
import { keyOf, type Occurrence } from "../3-plan/occurrences.js";
import { wordHelp } from "./word-help.js";

type Names = ReadonlyMap<string, readonly Occurrence[]>;

/** A name's place in the notebook. */
export interface Place {
  readonly path: string;
  readonly span: Span;
}

/** What is told of the word at a place. */
export interface Help {
  readonly span: Span;
  readonly title: string;
  readonly text: string;
}

/** The name at an offset of a document; where one place names two things, what it declares comes first. */
export function nameAt(names: Names, path: string, offset: number): Occurrence | null {
  const here = (names.get(path) ?? []).filter(({ span }) => span.from <= offset && offset <= span.to);
  return here.find(({ declares }) => declares) ?? here[0] ?? null;
}

/** All places of one thing, in the notebook's order. */
export function placesOf(names: Names, target: Occurrence): readonly (Place & { readonly declares: boolean })[] {
  return [...names].flatMap(([path, all]) =>
    all.filter((one) => keyOf(one) === keyOf(target)).map(({ span, declares }) => ({ path, span, declares })),
  );
}

/** Where a name is declared; a movement that no block declares, where it is first named. */
export function declarationOf(names: Names, target: Occurrence): Place | null {
  const places = placesOf(names, target);
  return places.find(({ declares }) => declares) ?? places[0] ?? null;
}

/** What the pointer is told of the word under it: a name's kind and declaration, or what a word of the language does. */
export function helpAt(names: Names, documents: readonly Document[], path: string, offset: number): Help | null {
  const name = nameAt(names, path, offset);
  if (name) {
    const places = placesOf(names, name);
    const declared = declarationOf(names, name);
    const source = documents.find((document) => document.path === declared?.path)?.text ?? "";
    const at = declared && position(lineStarts(source), declared.span.from);
    const line = at ? (source.split("\n")[at.line - 1] ?? "").trim() : "";
    // A misspelt name is not to look like one that is declared where it stands.
    const first = places.some(({ declares }) => declares) ? "" : "Nothing declares it. First named in ";
    const where = declared && at ? `${first}${declared.path}, line ${at.line}: ${line}. ` : "";
    return { span: name.span, title: `${name.kind} ${name.name}`, text: `${where}In ${counted(places.length, "place")}.` };
  }
  const text = documents.find((document) => document.path === path)?.text ?? "";
  const [from, to] = [
    lastIndex(text.slice(0, offset), /[\p{L}-]+$/u) ?? offset,
    offset + (/^[\p{L}-]*/u.exec(text.slice(offset))?.[0].length ?? 0),
  ];
  const word = text.slice(from, to);
  const help = Object.hasOwn(wordHelp, word) ? wordHelp[word] : undefined;
  return help === undefined ? null : { span: { from, to }, title: word, text: help };
}

function lastIndex(text: string, pattern: RegExp): number | null {
  return pattern.exec(text)?.index ?? null;
}
