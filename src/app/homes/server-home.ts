import type { Said } from "../../7-view/said.js";
import type { Home, Kept, Listed, Stored } from "./home.js";

const tokenMark = 'meta[name="rotaline-token"]';
const away = "The server does not answer. Your text is kept in this browser and goes to the folder when it is back: start rotaline again, on the same folder.";

/** The folder of the server that gave this page; null for a page without one. */
export function serverHome(): Home | null {
  const token = document.querySelector(tokenMark)?.getAttribute("content");
  return token ? new ServerHome(token) : null;
}

class ServerHome implements Home {
  readonly kind = "served";
  name = "the notebook's folder";
  readonly lookMs = 2_000;

  constructor(private readonly token: string) {}

  async list(first?: string): Promise<Listed> {
    const answer = await this.ask(first === undefined ? "notebook" : `notebook?first=${encodeURIComponent(first)}`, "GET");
    if (!answer?.ok) return { ok: false, reason: answer ? await answer.text() : away };
    const { folder, documents, said }: { folder: string; documents: readonly Stored[]; said: readonly Said[] | null } = await answer.json();
    this.name = `folder ${folder}`;
    return { ok: true, documents, said };
  }

  save(path: string, text: string, seen: string | null): Promise<Kept> {
    return this.change(path, "PUT", seen, text);
  }

  remove(path: string, seen: string): Promise<Kept> {
    return this.change(path, "DELETE", seen);
  }

  private async change(path: string, method: string, seen: string | null, body?: string): Promise<Kept> {
    const answer = await this.ask(`document?path=${encodeURIComponent(path)}`, method, seen, body);
    if (!answer) return { kind: "refused", reason: away };
    if (answer.status === 409) {
      const { document }: { document: Stored | null } = await answer.json();
      return { kind: "changed", theirs: document };
    }
    if (!answer.ok) return { kind: "refused", reason: reasonIn(await answer.text()) };
    const { version }: { version: string } = await answer.json();
    return { kind: "kept", version };
  }

  /** Null where nothing answers. */
  private async ask(path: string, method: string, seen: string | null = null, body?: string): Promise<Response | null> {
    try {
      const headers = { "x-rotaline-token": this.token, ...(seen ? { "if-match": seen } : {}) };
      return await fetch(path, { method, headers, ...(body === undefined ? {} : { body }) });
    } catch {
      return null;
    }
  }
}

/** A refusal comes as words or with words in it. */
function reasonIn(answer: string): string {
  return /"reason":"([^"]*)"/.exec(answer)?.[1] ?? answer;
}
