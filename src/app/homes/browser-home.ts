import type { Document } from "../../1-text/document.js";
import { changedSince, type Home, type Kept, type Listed } from "./home.js";

const prefix = "rotaline:";
const begun = "rotaline-begun";
const full = "This browser's storage is full, so the last change is on this page only. Download the document from its menu, or delete one that is not needed.";

/**
 * The notebook in this browser's storage, begun with the demo. Written at once and whole, so a crash loses nothing; a
 * document's version is its text.
 */
export class BrowserHome implements Home {
  readonly kind = "browser";
  readonly name = "this browser";
  readonly lookMs = 1_000;

  constructor(private readonly demo: readonly Document[]) {}

  list(): Promise<Listed> {
    if (localStorage.getItem(begun) === null) {
      for (const { path, text } of this.demo) if (localStorage.getItem(prefix + path) === null) this.write(path, text);
      localStorage.setItem(begun, "yes");
    }
    const paths = Object.keys(localStorage).filter((key) => key.startsWith(prefix)).map((key) => key.slice(prefix.length)).sort();
    return Promise.resolve({ ok: true, documents: paths.map((path) => ({ path, text: this.textOf(path) ?? "", version: this.textOf(path) ?? "" })) });
  }

  save(path: string, text: string, seen: string | null): Promise<Kept> {
    const changed = changedSince(path, this.textOf(path), seen);
    if (changed) return Promise.resolve(changed);
    return Promise.resolve(this.write(path, text) ? { kind: "kept", version: text } : { kind: "refused", reason: full });
  }

  remove(path: string, seen: string): Promise<Kept> {
    const changed = changedSince(path, this.textOf(path), seen);
    if (!changed) localStorage.removeItem(prefix + path);
    return Promise.resolve(changed ?? { kind: "kept", version: "" });
  }

  private textOf(path: string): string | null {
    return localStorage.getItem(prefix + path);
  }

  private write(path: string, text: string): boolean {
    try {
      localStorage.setItem(prefix + path, text);
      return true;
    } catch {
      return false;
    }
  }
}
