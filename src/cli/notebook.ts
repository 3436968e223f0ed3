import { readdirSync, readFileSync, statSync } from "node:fs";
import { dirname, join, relative, resolve } from "node:path";
import type { Document } from "../1-text/document.js";
import { openDocument } from "../3-plan/open.js";

/** `files` are those the paths name, absolute, each with its path as shown; `documents` have those besides that they use. */
export type Found =
  | { readonly ok: true; readonly documents: readonly Document[]; readonly files: ReadonlyMap<string, string> }
  | { readonly ok: false; readonly reason: string };

/** The documents at some paths: files, and every `.rota` file below a folder; then what their `use` lines name. */
export function readNotebook(paths: readonly string[]): Found {
  const files = new Map<string, Document>();
  const add = (file: string, shown: string): void => {
    if (!files.has(resolve(file))) files.set(resolve(file), { path: shown, text: readFileSync(file, "utf8") });
  };
  for (const path of paths) {
    const stats = statSync(path, { throwIfNoEntry: false });
    if (!stats) return { ok: false, reason: `There is no file or folder “${path}”.` };
    if (stats.isDirectory()) for (const file of rotaFiles(path)) add(file, relative(path, file));
    else add(path, path);
  }
  if (files.size === 0) return { ok: false, reason: `There is no .rota document in ${paths.join(", ")}.` };
  const named = new Map([...files].map(([file, { path }]) => [file, path]));
  // A document that is used may use others: the map grows while it is walked.
  for (const [file, { text, path }] of files) {
    if (!mayUse.test(text)) continue;
    for (const { read } of openDocument({ path, text }, null).blocks) {
      if (read.line.kind !== "use") continue;
      const used = resolve(dirname(file), read.line.path);
      if (statSync(used, { throwIfNoEntry: false })?.isFile()) add(used, read.line.path);
    }
  }
  return { ok: true, documents: [...files.values()], files: named };
}

const mayUse = /^\s*use\b/m;

function rotaFiles(folder: string): readonly string[] {
  return readdirSync(folder, { withFileTypes: true })
    .filter(({ name }) => !name.startsWith(".") && name !== "node_modules")
    .sort((a, b) => (a.name < b.name ? -1 : 1))
    .flatMap((entry) => {
      const path = join(folder, entry.name);
      if (entry.isDirectory()) return rotaFiles(path);
      return entry.isFile() && entry.name.endsWith(".rota") ? [path] : [];
    });
}
