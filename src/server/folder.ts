import { createHash, randomUUID } from "node:crypto";
import { renameSync, statSync } from "node:fs";
import { mkdir, open, readdir, realpath, rm, stat } from "node:fs/promises";
import { dirname, join, relative, resolve, sep } from "node:path";
import type { StoredDocument } from "../1-text/document.js";
import { largestDocument, readDocumentText } from "./document-text.js";

export type Saved =
  | { readonly kind: "saved"; readonly version: string }
  /** Somebody else wrote meanwhile: their text, nothing overwritten. */
  | { readonly kind: "changed"; readonly document: StoredDocument | null }
  | { readonly kind: "refused"; readonly reason: string };

export interface FolderListing {
  readonly documents: readonly StoredDocument[];
  /** Of each file or folder that cannot be opened, why. */
  readonly unreadable: readonly string[];
}

const outside: Saved = {
  kind: "refused",
  reason: "A document is a .rota file inside the notebook's folder; its name has no control characters and does not begin with a dot.",
};

/** A notebook's folder. Nothing outside it is read or written, links included; one write a path at a time. */
export class Folder {
  private readonly writing = new Map<string, Promise<unknown>>();

  private constructor(readonly root: string) {}

  static async at(path: string): Promise<Folder> {
    return new Folder(await realpath(path));
  }

  /** The same for the same folder; says nothing of where it is. */
  get id(): string {
    return versionOf(this.root);
  }

  async documents(): Promise<FolderListing> {
    const documents: StoredDocument[] = [];
    const unreadable: string[] = [];
    const walk = async (folder: string): Promise<void> => {
      const entries = await readdir(folder, { withFileTypes: true }).catch(() => null);
      if (!entries) unreadable.push(`The folder ${this.pathOf(folder)} cannot be read: it needs the permission.`);
      for (const entry of [...(entries ?? [])].sort((a, b) => (a.name < b.name ? -1 : 1))) {
        if (!isPart(entry.name)) continue;
        const file = join(folder, entry.name);
        if (entry.isDirectory()) await walk(file);
        else if (entry.name.endsWith(".rota")) {
          const path = this.pathOf(file);
          const read = entry.isFile() ? readDocument(file, path) : { reason: "it is a link or no plain file, and links are not followed" };
          if ("reason" in read) unreadable.push(`${path} is not opened: ${read.reason}.`);
          else documents.push(read);
        }
      }
    };
    await walk(this.root);
    return { documents, unreadable };
  }

  /** Null where there is no such document in the folder. */
  async read(path: string): Promise<StoredDocument | null> {
    const file = await this.fileOf(path);
    const read = file === null ? null : readDocument(file, path);
    return read && "text" in read ? read : null;
  }

  /** Writes whole or not at all, and only over the version the writer has seen (null: over nothing). */
  write(path: string, text: string, seen: string | null): Promise<Saved> {
    return this.alone(path, async (file) => {
      if (Buffer.byteLength(text) > largestDocument)
        return { kind: "refused", reason: "A document may be four megabytes at most. Split it into several." };
      const draft = join(dirname(file), `.${randomUUID()}.rota-draft`);
      try {
        await mkdir(dirname(file), { recursive: true });
        const mode = await stat(file).then(
          (had) => had.mode & 0o777,
          () => 0o644,
        );
        if ((mode & 0o222) === 0)
          return { kind: "refused", reason: `${path} is read-only. Change its permission, or save under another name.` };
        const handle = await open(draft, "wx", mode);
        await handle.chmod(mode);
        await handle.writeFile(text);
        await handle.sync();
        await handle.close();
        // Nothing lies between the look and the rename: who writes here meanwhile is seen.
        const had = standing(file, path);
        const changed = changedSince(had, seen, path);
        if (!changed) renameSync(draft, file);
        else await rm(draft, { force: true });
        return changed ?? { kind: "saved", version: versionOf(text) };
      } catch (error) {
        await rm(draft, { force: true }).catch(() => undefined);
        return { kind: "refused", reason: reasonOf(error, path) };
      }
    });
  }

  /** Takes a document away, if it is still the version `seen`. */
  remove(path: string, seen: string | null): Promise<Saved> {
    return this.alone(path, async (file) => {
      const changed = changedSince(standing(file, path), seen, path);
      if (changed) return changed;
      return rm(file, { force: true }).then(
        (): Saved => ({ kind: "saved", version: "" }),
        (error: unknown): Saved => ({ kind: "refused", reason: reasonOf(error, path) }),
      );
    });
  }

  /** Runs a job on a document's file when no other is under way for it. */
  private async alone(path: string, job: (file: string) => Promise<Saved>): Promise<Saved> {
    const file = await this.fileOf(path);
    if (file === null) return outside;
    const turn = (this.writing.get(file) ?? Promise.resolve()).then(() => job(file));
    this.writing.set(file, turn);
    const done = await turn;
    if (this.writing.get(file) === turn) this.writing.delete(file);
    return done;
  }

  private pathOf(file: string): string {
    return relative(this.root, file).split(sep).join("/");
  }

  /** The file of a document's path; null for one outside the folder, through a link or not, or of another kind. */
  private async fileOf(path: string): Promise<string | null> {
    const parts = path.split("/");
    if (!path.endsWith(".rota") || !parts.every(isPart)) return null;
    const file = resolve(this.root, ...parts);
    if (!file.startsWith(this.root + sep)) return null;
    for (let part = file; part !== this.root; part = dirname(part)) {
      const real = await realpath(part).catch(() => undefined);
      if (real !== undefined) return real === part ? file : null;
    }
    return file;
  }
}

/** A name that a folder or document may have: none that is hidden, none that shows as another. */
function isPart(name: string): boolean {
  return (
    name !== "" && !name.startsWith(".") && name !== "node_modules" && !/[\p{Cc}\p{Cf}\p{Zl}\p{Zp}\\]/u.test(name) && name.length <= 200
  );
}

function readDocument(file: string, path: string): StoredDocument | { readonly reason: string } {
  try {
    const read = readDocumentText(file);
    return "reason" in read ? read : { path, text: read.text, version: versionOf(read.text) };
  } catch (error) {
    return { reason: reasonOf(error, "it") };
  }
}

/** What stands in a document's place: a document, a file that is none, or nothing. */
function standing(file: string, path: string): StoredDocument | "other" | null {
  try {
    statSync(file);
  } catch {
    return null;
  }
  const read = readDocument(file, path);
  return "text" in read ? read : "other";
}

function changedSince(had: StoredDocument | "other" | null, seen: string | null, path: string): Saved | null {
  if (had === "other")
    return { kind: "refused", reason: `${path} in the folder is no text that Rotaline can read, so it is not written over.` };
  return (had?.version ?? null) === seen ? null : { kind: "changed", document: had };
}

const reasons: Readonly<Record<string, string>> = {
  ENOSPC: "The disk is full",
  EACCES: "The permission is missing",
  EPERM: "The permission is missing",
  EROFS: "The disk is read-only",
  ENAMETOOLONG: "The name is too long",
  ENOTDIR: "A document stands where a folder would have to be",
  EISDIR: "A folder stands where the document would have to be",
};

/** In words, without saying where the folder lies. */
function reasonOf(error: unknown, path: string): string {
  const code = error instanceof Error && "code" in error ? String(error.code) : "";
  return `${reasons[code] ?? "The file system refuses"}: ${path} is not written. Your text is kept in this browser.`;
}

function versionOf(text: string): string {
  return createHash("sha256").update(text).digest("hex").slice(0, 16);
}
