import { createHash, randomUUID } from "node:crypto";
import { mkdir, open, readdir, readFile, realpath, rename, rm } from "node:fs/promises";
import { dirname, join, relative, resolve, sep } from "node:path";
import type { StoredDocument } from "../1-text/document.js";

export type Saved =
  | { readonly kind: "saved"; readonly version: string }
  /** Somebody else wrote meanwhile: their text, nothing overwritten. */
  | { readonly kind: "changed"; readonly document: StoredDocument | null }
  | { readonly kind: "refused"; readonly reason: string };

const outside: Saved = { kind: "refused", reason: "A document is a .rota file inside the notebook's folder." };

/** A notebook's folder. Nothing outside it is read or written, links included. */
export class Folder {
  private constructor(readonly root: string) {}

  static async at(path: string): Promise<Folder> {
    return new Folder(await realpath(path));
  }

  async documents(): Promise<readonly StoredDocument[]> {
    const found: StoredDocument[] = [];
    const walk = async (folder: string): Promise<void> => {
      for (const entry of (await readdir(folder, { withFileTypes: true })).sort((a, b) => (a.name < b.name ? -1 : 1))) {
        const path = join(folder, entry.name);
        if (entry.name.startsWith(".") || entry.name === "node_modules") continue;
        if (entry.isDirectory()) await walk(path);
        else if (entry.isFile() && entry.name.endsWith(".rota")) {
          const document = await this.read(relative(this.root, path).split(sep).join("/"));
          if (document) found.push(document);
        }
      }
    };
    await walk(this.root);
    return found;
  }

  /** Null where there is no such document in the folder. */
  async read(path: string): Promise<StoredDocument | null> {
    const file = await this.fileOf(path);
    if (file === null) return null;
    try {
      const text = await readFile(file, "utf8");
      return { path, text, version: versionOf(text) };
    } catch {
      return null;
    }
  }

  /** Writes whole or not at all, and only over the version the writer has seen (null: over nothing). */
  async write(path: string, text: string, seen: string | null): Promise<Saved> {
    const file = await this.fileOf(path);
    if (file === null) return outside;
    const current = await this.read(path);
    if ((current?.version ?? null) !== seen) return { kind: "changed", document: current };
    await mkdir(dirname(file), { recursive: true });
    const draft = join(dirname(file), `.${randomUUID()}.rota-draft`);
    try {
      const handle = await open(draft, "wx");
      await handle.writeFile(text);
      await handle.sync();
      await handle.close();
      await rename(draft, file);
    } catch (error) {
      await rm(draft, { force: true });
      return { kind: "refused", reason: error instanceof Error ? error.message : String(error) };
    }
    return { kind: "saved", version: versionOf(text) };
  }

  /** Takes a document away, if it is still the version `seen`. */
  async remove(path: string, seen: string | null): Promise<Saved> {
    const file = await this.fileOf(path);
    const current = file === null ? null : await this.read(path);
    if (file === null) return outside;
    if ((current?.version ?? null) !== seen) return { kind: "changed", document: current };
    await rm(file, { force: true });
    return { kind: "saved", version: "" };
  }

  /** The file of a document's path; null for one outside the folder, through a link or not, or of another kind. */
  private async fileOf(path: string): Promise<string | null> {
    const file = resolve(this.root, path);
    if (!file.endsWith(".rota") || !file.startsWith(this.root + sep) || path.includes("\0")) return null;
    for (let part = file; part !== this.root; part = dirname(part)) {
      try {
        const real = await realpath(part);
        return real === part ? file : null;
      } catch {
        continue;
      }
    }
    return file;
  }
}

function versionOf(text: string): string {
  return createHash("sha256").update(text).digest("hex").slice(0, 16);
}
