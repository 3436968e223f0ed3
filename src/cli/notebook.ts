import { readdirSync, readFileSync, realpathSync, statSync } from "node:fs";
import { dirname, join, relative, resolve, sep } from "node:path";
import type { Document } from "../1-text/document.js";
import { openDocument } from "../3-plan/open.js";
import { documentText, readDocumentText } from "../server/document-text.js";

/**
 * `documents` are all that were read; `files` those that the paths name: where each is, by its path as shown. `notes`
 * say what was left out, and why.
 */
export type FoundNotebook =
  | {
      readonly ok: true;
      readonly documents: readonly Document[];
      readonly files: ReadonlyMap<string, string>;
      readonly notes: readonly string[];
    }
  | { readonly ok: false; readonly reason: string };

/** The document that comes in by standard input. */
export const inputPath = "-";

/**
 * The documents at some paths: files, and every `.rota` file below a folder, each once by where it really is; then what
 * their `use` lines name, as far as that lies in the notebook's folder. `-` is standard input.
 */
export function readNotebook(paths: readonly string[]): FoundNotebook {
  const byPlace = new Map<string, Document>();
  const notes: string[] = [];
  const roots: string[] = [];
  const add = (file: string): void => {
    const place = realpathSync(file);
    if (byPlace.has(place)) return;
    const read = readDocument(place);
    if ("reason" in read) notes.push(`${shownPath(file)} is left out: ${read.reason}.`);
    else byPlace.set(place, { path: shownPath(file), text: read.text });
  };
  for (const path of paths) {
    if (path === inputPath) {
      const read = documentText(readFileSync(0));
      if ("reason" in read) return { ok: false, reason: `What came in is left out: ${read.reason}.` };
      byPlace.set(inputPath, { path: "standard input", text: read.text });
      continue;
    }
    const stats = statSync(path, { throwIfNoEntry: false });
    if (!stats) return { ok: false, reason: `There is no file or folder “${path}”.` };
    const here = realpathSync(process.cwd());
    if (stats.isDirectory()) {
      roots.push(realpathSync(path));
      for (const file of rotaFiles(path, notes)) add(file);
    } else {
      roots.push(realpathSync(path).startsWith(here + sep) ? here : dirname(realpathSync(path)));
      add(path);
    }
  }
  if (byPlace.size === 0)
    return {
      ok: false,
      reason: [`No .rota document is in ${paths.map((path) => (path === "." ? "this folder" : `“${path}”`)).join(", ")}.`, ...notes].join(
        "\n",
      ),
    };
  const files = new Map([...byPlace].flatMap(([place, { path }]) => (place === inputPath ? [] : [[path, place] as const])));
  followUses(byPlace, roots, add, notes);
  return { ok: true, documents: [...byPlace.values()], files, notes };
}

/** Reads what documents use, and what those use in turn: the map grows while it is walked. */
function followUses(byPlace: ReadonlyMap<string, Document>, roots: readonly string[], add: (file: string) => void, notes: string[]): void {
  for (const [place, document] of byPlace) {
    if (place === inputPath || !mayUse.test(document.text)) continue;
    for (const { read } of openDocument(document, null).blocks) {
      if (read.line.kind !== "use") continue;
      const used = resolve(dirname(place), read.line.path);
      if (!statSync(used, { throwIfNoEntry: false })) continue;
      const real = realpathSync(used);
      const inside = roots.some((root) => real.startsWith(root + sep));
      if (inside && real.endsWith(".rota")) add(used);
      else
        notes.push(
          `${document.path} uses “${read.line.path}”, which is ${inside ? "no .rota file" : "outside the notebook's folder"}: it is not read.`,
        );
    }
  }
}

const mayUse = /^\s*use\b/m;

function readDocument(file: string): { readonly text: string } | { readonly reason: string } {
  try {
    return statSync(file).isFile() ? readDocumentText(file) : { reason: "it is no plain file" };
  } catch {
    return { reason: "it cannot be read: it needs the permission" };
  }
}

/** As one would type it from where one stands. */
function shownPath(file: string): string {
  const near = relative(process.cwd(), resolve(file));
  // What a name has that cannot be seen does not reach a terminal, not even a new line.
  return (near.startsWith("..") ? file : near).replace(/\p{C}/gu, "\ufffd");
}

function rotaFiles(folder: string, notes: string[]): readonly string[] {
  let entries;
  try {
    entries = readdirSync(folder, { withFileTypes: true });
  } catch {
    notes.push(`The folder ${shownPath(folder)} cannot be read: it needs the permission.`);
    return [];
  }
  return entries
    .filter(({ name }) => !name.startsWith(".") && name !== "node_modules")
    .sort((a, b) => (a.name < b.name ? -1 : 1))
    .flatMap((entry) => {
      const path = join(folder, entry.name);
      if (entry.isDirectory()) return rotaFiles(path, notes);
      if (!entry.name.endsWith(".rota")) return [];
      if (entry.isFile()) return [path];
      notes.push(`${shownPath(path)} is left out: it is a link or no plain file. Name the file itself.`);
      return [];
    });
}
