/** Where the notebook's text lives: the folder that the server opened, or this browser. */
import type { Document } from "../1-text/document.js";

export type Kept = { readonly ok: true } | { readonly ok: false; readonly reason: string };

export interface Home {
  /** In words, for the page. */
  readonly name: string;
  load(): Promise<readonly Document[]>;
  save(path: string, text: string): Promise<Kept>;
}

const tokenMark = 'meta[name="rotaline-token"]';

/** The home of this page: its server's folder if a server gave it a token, else the browser. */
export function homeOfPage(demo: readonly Document[]): Home {
  const token = document.querySelector(tokenMark)?.getAttribute("content");
  return token ? new FolderHome(token) : new BrowserHome(demo);
}

interface Stored extends Document {
  readonly version: string;
}

class FolderHome implements Home {
  name = "the notebook's folder";
  private readonly versions = new Map<string, string>();

  constructor(private readonly token: string) {}

  async load(): Promise<readonly Document[]> {
    const response = await fetch("notebook", { headers: this.headers() });
    if (!response.ok) throw new Error(await response.text());
    const { folder, documents }: { folder: string; documents: readonly Stored[] } = await response.json();
    this.name = `folder ${folder}`;
    for (const { path, version } of documents) this.versions.set(path, version);
    return documents;
  }

  async save(path: string, text: string): Promise<Kept> {
    const seen = this.versions.get(path);
    try {
      const response = await fetch(`document?path=${encodeURIComponent(path)}`, { method: "PUT", body: text, headers: { ...this.headers(), ...(seen ? { "if-match": seen } : {}) } });
      if (response.status === 409) return { ok: false, reason: `${path} was changed by somebody else and is not overwritten. Your text is kept in this browser: copy it, then load the page again.` };
      if (!response.ok) return { ok: false, reason: await response.text() };
      const { version }: { version: string } = await response.json();
      this.versions.set(path, version);
      return { ok: true };
    } catch {
      return { ok: false, reason: "The server does not answer. Your text is kept in this browser; start rotaline again and load the page." };
    }
  }

  private headers(): Record<string, string> {
    return { "x-rotaline-token": this.token };
  }
}

const prefix = "rotaline:";

class BrowserHome implements Home {
  readonly name = "this browser";

  constructor(private readonly demo: readonly Document[]) {}

  load(): Promise<readonly Document[]> {
    const kept = Object.keys(localStorage)
      .filter((key) => key.startsWith(prefix))
      .map((key) => ({ path: key.slice(prefix.length), text: localStorage.getItem(key) ?? "" }));
    const paths = new Set(kept.map(({ path }) => path));
    const all = [...kept, ...this.demo.filter(({ path }) => !paths.has(path))];
    return Promise.resolve(all.sort((a, b) => (a.path < b.path ? -1 : 1)));
  }

  save(path: string, text: string): Promise<Kept> {
    try {
      localStorage.setItem(prefix + path, text);
      return Promise.resolve({ ok: true });
    } catch {
      return Promise.resolve({ ok: false, reason: "This browser's storage is full. Copy the text into a file, then delete what is not needed." });
    }
  }
}
