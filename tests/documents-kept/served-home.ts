import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { vi } from "vitest";
import type { Home, HomeAnswer, Listed } from "../../src/app/homes/home.js";
import { serverHome } from "../../src/app/homes/server-home.js";
import { Folder } from "../../src/server/folder.js";
import { serve, type Serving } from "../../src/server/serve.js";

/** What a page reads of itself: the two values that the server wrote into it. */
function pageOf(html: string): object {
  return {
    querySelector: (selector: string) => {
      const [, name = ""] = /name="([^"]*)"/.exec(selector) ?? [];
      const [, content] = new RegExp(`<meta name="${name}" content="([^"]*)">`).exec(html) ?? [];
      return content === undefined ? null : { getAttribute: () => content };
    },
  };
}

/**
 * The page's own client of the real server over a folder on the disk. As with the fake home each request waits until it is let
 * through; it may never be sent, or its answer be lost.
 */
export class ServedHome implements Home {
  readonly kind = "served";
  readonly name = "served";
  readonly lookMs = 1;
  private readonly waiting: ((how: "run" | "fail" | "lose") => Promise<void>)[] = [];

  private constructor(
    private readonly folder: string,
    private readonly page: string,
    private serving: Serving,
    private readonly client: Home,
  ) {}

  static async start(): Promise<ServedHome> {
    const folder = mkdtempSync(join(tmpdir(), "rotaline-model-"));
    const page = mkdtempSync(join(tmpdir(), "rotaline-model-page-"));
    writeFileSync(join(page, "index.html"), "<head></head>");
    const serving = await serve(await Folder.at(folder), page, 0);
    const { fetch } = globalThis;
    vi.stubGlobal("fetch", (path: string, request: RequestInit) => fetch(new URL(path, serving.url), request));
    vi.stubGlobal(
      "DOMParser",
      class {
        parseFromString = pageOf;
      },
    );
    vi.stubGlobal("document", pageOf(await (await fetch(serving.url)).text()));
    const client = serverHome();
    if (!client) throw new Error("the page was given no token");
    return new ServedHome(folder, page, serving, client);
  }

  stop(): void {
    this.close();
    for (const made of [this.folder, this.page]) rmSync(made, { recursive: true, force: true });
    vi.unstubAllGlobals();
  }

  get id(): string {
    return this.client.id;
  }

  get open(): number {
    return this.waiting.length;
  }

  /** What stands on the disk. */
  get texts(): ReadonlyMap<string, { readonly text: string }> {
    const read = (path: string) => ({ text: readFileSync(join(this.folder, path), "utf8") });
    return new Map(readdirSync(this.folder).map((path) => [path, read(path)]));
  }

  async answer(which: number, how: "run" | "fail" | "lose"): Promise<void> {
    const [request] = this.waiting.splice(which % Math.max(1, this.waiting.length), 1);
    await request?.(how);
  }

  /** The server ends and another starts at its address: its token is new. */
  async restart(): Promise<void> {
    this.close();
    this.serving = await serve(await Folder.at(this.folder), this.page, Number(new URL(this.serving.url).port));
  }

  foreign(path: string, change: (text: string | null) => string | null): void {
    const file = join(this.folder, path);
    const text = change(existsSync(file) ? readFileSync(file, "utf8") : null);
    if (text === null) rmSync(file, { force: true });
    else writeFileSync(file, text);
  }

  /** What a page that is loaded is given, without waiting. */
  atOnce(): Promise<Listed> {
    return this.client.list();
  }

  list(): Promise<Listed> {
    return this.later<Listed>(() => this.client.list(), { ok: false, reason: "away" });
  }

  save(path: string, text: string, seen: string | null): Promise<HomeAnswer> {
    return this.later<HomeAnswer>(() => this.client.save(path, text, seen), { kind: "refused", reason: "away" });
  }

  remove(path: string, seen: string): Promise<HomeAnswer> {
    return this.later<HomeAnswer>(() => this.client.remove(path, seen), { kind: "refused", reason: "away" });
  }

  private close(): void {
    this.serving.server.closeAllConnections();
    this.serving.server.close();
  }

  private later<T>(carryOut: () => Promise<T>, refused: T): Promise<T> {
    return new Promise((done) => {
      this.waiting.push(async (how) => {
        const answer = how === "fail" ? refused : await carryOut();
        done(how === "run" ? answer : refused);
      });
    });
  }
}
