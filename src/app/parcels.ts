/** What is sent and received, made ready where the notebook is compiled. */
import { type Document, linesOf } from "../1-text/document.js";
import { pack, type Parcel } from "../1-text/parcel.js";
import { abilityRows } from "../3-plan/ability-table.js";
import { keyOf, occurrencesIn } from "../3-plan/occurrences.js";
import { compile, type Compiled } from "../compile.js";
import { shownByLine } from "../7-view/answered-block.js";
import { tabSeparated } from "../7-view/columns.js";
import { neededBy } from "../7-view/needed.js";
import { singlePage } from "../7-view/single-page.js";
import type { Parcelled, ReceivedDocument } from "./protocol.js";

/** A document with what it needs, as a parcel alone. */
export function parcelOf(path: string, notebook: Compiled): Parcel {
  return pack(neededBy(path, notebook));
}

/**
 * A document with what it needs, as a parcel and as a page. The page says what those documents alone come to: what
 * whoever gets it sees.
 */
export function parcelled(path: string, notebook: Compiled): Parcelled {
  const documents = neededBy(path, notebook);
  const parcel = pack(documents);
  return { documents: documents.map((document) => document.path), parcel, page: singlePage(path, compile(documents), parcel) };
}

/** What was received, answered by itself, and what of it the notebook has already. */
export function receivedIn(received: readonly Document[], notebook: Compiled): readonly ReceivedDocument[] {
  const theirs = compile(received);
  const paths = new Set(received.map(({ path }) => path));
  const mine = declaredIn(notebook, (path) => !paths.has(path));
  const names = declaredIn(theirs, () => true);
  return received.map(({ path, text }): ReceivedDocument => {
    const shown = shownByLine(theirs.documents.get(path)?.blocks ?? []);
    const lines = linesOf(text).map((line, at) => ({ text: line, shown: shown.get(at) ?? "" }));
    const clashes = [...names].flatMap(([key, { words, path: at }]) =>
      at === path && mine.has(key) ? [`${words} (also in ${mine.get(key)?.path ?? ""})`] : [],
    );
    return { path, text, lines, mine: notebook.documents.get(path)?.document.parsed.text ?? null, clashes };
  });
}

function declaredIn(
  { documents, kept }: Compiled,
  counts: (path: string) => boolean,
): ReadonlyMap<string, { readonly words: string; readonly path: string }> {
  const found = occurrencesIn({
    documents: [...documents].map(([path, { document }]) => ({ path, blocks: document.blocks })),
    world: kept.world,
  });
  return new Map(
    [...found]
      .filter(([path]) => counts(path))
      .flatMap(([path, names]) =>
        names
          .filter(({ declares, scope }) => declares && scope === null)
          .map((name) => [keyOf(name), { words: `${name.kind} ${name.name}`, path }] as const),
      ),
  );
}

/** The ability block at a place as tab-separated rows; null where the place is in none. */
export function rowsAt(documents: Compiled["documents"], path: string, offset: number): string | null {
  const block = documents.get(path)?.blocks.findLast(({ block: { from } }) => from <= offset)?.block;
  return block?.read.line.kind === "ability" ? tabSeparated(abilityRows(block.text)) : null;
}
