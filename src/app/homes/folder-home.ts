import { del, get, set } from "idb-keyval";
import { changedSince, type Home, type HomeAnswer, type Listed, type Stored } from "./home.js";

const key = "rotaline-folder";
const gone =
  "The folder cannot be written any more: the browser has taken the permission back, or the folder is gone. Your text is kept in this browser. Open the folder again from the notebook's menu.";

/** Whether this browser can open a folder of the machine. */
export const canOpenFolder = typeof showDirectoryPicker === "function";

/** Asks for a folder, remembers it, and begins the page anew over it; nothing happens where the coach thinks better of it. */
export async function openFolder(): Promise<void> {
  try {
    await set(key, await showDirectoryPicker({ id: "rotaline", mode: "readwrite" }));
  } catch {
    return;
  }
  location.reload();
}

/** The folder opened last, where the browser still allows it; else its name, to be asked for again. */
export async function rememberedFolder(): Promise<{ readonly home: Home | null; readonly name: string } | null> {
  if (!canOpenFolder) return null;
  const folder = await keptFolder();
  if (!folder) return null;
  const allowed = (await folder.queryPermission?.({ mode: "readwrite" })) ?? "granted";
  return { home: allowed === "granted" ? new FolderHome(folder) : null, name: folder.name };
}

/** Undefined where none was opened, or where the browser keeps nothing for this page: some refuse at once, some later. */
async function keptFolder(): Promise<FileSystemDirectoryHandle | undefined> {
  try {
    return await get<FileSystemDirectoryHandle>(key);
  } catch {
    return undefined;
  }
}

/** From here on the notebook lives in the browser again. */
export async function leaveFolder(): Promise<void> {
  await del(key);
  location.reload();
}

/** A folder of this machine, through the browser. A document's version is its text. */
class FolderHome implements Home {
  readonly kind = "picked";
  readonly name: string;
  readonly id: string;
  readonly lookMs = 3_000;

  constructor(private readonly folder: FileSystemDirectoryHandle) {
    this.name = `folder ${folder.name}`;
    this.id = `picked ${folder.name}`;
  }

  async list(): Promise<Listed> {
    try {
      const found: Stored[] = [];
      const walk = async (folder: FileSystemDirectoryHandle, above: string): Promise<void> => {
        for await (const [name, entry] of folder.entries()) {
          if (name.startsWith(".") || name === "node_modules") continue;
          if (entry.kind === "directory") await walk(entry, `${above}${name}/`);
          else if (name.endsWith(".rota")) {
            const text = await (await entry.getFile()).text();
            found.push({ path: above + name, text, version: text });
          }
        }
      };
      await walk(this.folder, "");
      return { ok: true, documents: found.sort((a, b) => (a.path < b.path ? -1 : 1)) };
    } catch {
      return { ok: false, reason: gone };
    }
  }

  async save(path: string, text: string, seen: string | null): Promise<HomeAnswer> {
    try {
      const changed = await this.changedSince(path, seen);
      if (changed) return changed;
      const file = await (await this.folderOf(path)).getFileHandle(nameOf(path), { create: true });
      // The browser writes to a copy and puts it in place when it is closed: whole or not at all.
      const writable = await file.createWritable();
      await writable.write(text);
      await writable.close();
      return { kind: "kept", version: text };
    } catch {
      return { kind: "refused", reason: gone };
    }
  }

  async remove(path: string, seen: string): Promise<HomeAnswer> {
    try {
      const changed = await this.changedSince(path, seen);
      if (changed) return changed;
      await (await this.folderOf(path)).removeEntry(nameOf(path));
      return { kind: "kept", version: "" };
    } catch {
      return { kind: "refused", reason: gone };
    }
  }

  private async changedSince(path: string, seen: string | null): Promise<HomeAnswer | null> {
    return changedSince(path, await this.textOf(path), seen);
  }

  private async textOf(path: string): Promise<string | null> {
    try {
      return await (await (await (await this.folderOf(path)).getFileHandle(nameOf(path))).getFile()).text();
    } catch (error) {
      if (error instanceof DOMException && error.name === "NotFoundError") return null;
      throw error;
    }
  }

  private async folderOf(path: string): Promise<FileSystemDirectoryHandle> {
    let folder = this.folder;
    for (const name of path.split("/").slice(0, -1)) folder = await folder.getDirectoryHandle(name, { create: true });
    return folder;
  }
}

function nameOf(path: string): string {
  return path.split("/").at(-1) ?? path;
}
