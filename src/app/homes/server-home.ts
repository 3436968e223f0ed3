import type { Said } from "../../7-view/said.js";
import type { Home, HomeAnswer, Listed, Stored } from "./home.js";

/** A server on this machine answers in milliseconds; one that is stuck must not stop the saving. */
const longestAnswerMs = 10_000;
const away =
  "The server does not answer. Your text is kept in this browser, for this address and folder, and goes there when it is back: start rotaline again, on the same folder and port.";
const another =
  "Another folder is served at this address now. Your text is kept in this browser: start rotaline on the folder it belongs to, or load the page again to open the new one.";

/** The folder of the server that gave this page; null for a page without one. */
export function serverHome(): Home | null {
  const served = tokenIn(document);
  return served ? new ServerHome(served) : null;
}

interface ServedBy {
  readonly token: string;
  readonly folder: string;
}

/** What a page was given to write with, and the folder it is for. */
function tokenIn(page: Document): ServedBy | null {
  const content = (name: string): string | null => page.querySelector(`meta[name="${name}"]`)?.getAttribute("content") ?? null;
  const token = content("rotaline-token");
  return token === null ? null : { token, folder: content("rotaline-folder") ?? "" };
}

class ServerHome implements Home {
  readonly kind = "served";
  name = "the notebook's folder";
  readonly id: string;
  readonly lookMs = 2_000;
  private token: string;
  private readonly folder: string;

  constructor(served: ServedBy) {
    this.token = served.token;
    this.folder = served.folder;
    this.id = `served ${served.folder}`;
  }

  async list(first?: string): Promise<Listed> {
    const answer = await this.ask(first === undefined ? "notebook" : `notebook?first=${encodeURIComponent(first)}`, "GET");
    if (typeof answer === "string") return { ok: false, reason: answer };
    if (answer.code !== 200) return { ok: false, reason: reasonIn(answer.body) };
    const {
      folder,
      documents,
      said,
      unreadable,
    }: { folder: string; documents: readonly Stored[]; said: readonly Said[] | null; unreadable: readonly string[] } = JSON.parse(
      answer.body,
    );
    this.name = `folder ${folder}`;
    return { ok: true, documents, said, unreadable };
  }

  save(path: string, text: string, seen: string | null): Promise<HomeAnswer> {
    return this.change(path, "PUT", seen, text);
  }

  remove(path: string, seen: string): Promise<HomeAnswer> {
    return this.change(path, "DELETE", seen);
  }

  private async change(path: string, method: string, seen: string | null, body?: string): Promise<HomeAnswer> {
    const answer = await this.ask(`document?path=${encodeURIComponent(path)}`, method, seen, body);
    if (typeof answer === "string") return { kind: "refused", reason: answer };
    if (answer.code === 409) {
      const { document }: { document: Stored | null } = JSON.parse(answer.body);
      return { kind: "changed", theirs: document };
    }
    if (answer.code !== 200) return { kind: "refused", reason: reasonIn(answer.body) };
    const { version }: { version: string } = JSON.parse(answer.body);
    return { kind: "kept", version };
  }

  /**
   * The whole answer in time; in words what is the matter where none comes. A server that was started anew is asked
   * again with its token.
   */
  private async ask(
    path: string,
    method: string,
    seen: string | null = null,
    body?: string,
  ): Promise<{ readonly code: number; readonly body: string } | string> {
    try {
      const first = await this.request(path, method, seen, body);
      if (first.code !== 403) return first;
      const renewed = await this.renew();
      if (renewed === null) return first;
      return renewed === this.folder ? await this.request(path, method, seen, body) : another;
    } catch {
      return away;
    }
  }

  private async request(
    path: string,
    method: string,
    seen: string | null,
    body?: string,
  ): Promise<{ readonly code: number; readonly body: string }> {
    const headers = { "x-rotaline-token": this.token, ...(seen ? { "if-match": seen } : {}) };
    const answer = await fetch(path, {
      method,
      headers,
      signal: AbortSignal.timeout(longestAnswerMs),
      ...(body === undefined ? {} : { body }),
    });
    return { code: answer.status, body: await answer.text() };
  }

  /** Takes the token of the page that the server gives now; gives its folder, null where the page is no newer. */
  private async renew(): Promise<string | null> {
    const page = await fetch("./", { cache: "no-store", signal: AbortSignal.timeout(longestAnswerMs) });
    const served = tokenIn(new DOMParser().parseFromString(await page.text(), "text/html"));
    if (!served || served.token === this.token) return null;
    if (served.folder === this.folder) this.token = served.token;
    return served.folder;
  }
}

/** A refusal comes as words or with words in it. */
function reasonIn(answer: string): string {
  return /"reason":"([^"]*)"/.exec(answer)?.[1] ?? answer;
}
