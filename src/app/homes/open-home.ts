import type { StoredDocument as Stored } from "../../1-text/document.js";
import { demo } from "../demo.js";
import { Drafts, isDraft, type LeftDraft } from "../notebook/drafts.js";
import type { Notice } from "../notebook/notebook.js";
import { openStore, type TextStore } from "../notebook/store.js";
import { BrowserHome } from "./browser-home.js";
import { openFolder, rememberedFolder } from "./folder-home.js";
import type { Home, Listed } from "./home.js";
import { serverHome } from "./server-home.js";

/** The home of this page and what it has, with what this browser keeps for it. */
export interface OpenedHome {
  readonly home: Home;
  readonly listed: Listed;
  readonly notices: readonly Notice[];
  readonly drafts: Drafts;
  readonly left: readonly LeftDraft[];
  /** Tells of the drafts that a page which is open now leaves when it is no more. */
  readonly later: (tell: (left: readonly LeftDraft[]) => void) => void;
  readonly copies: Copies;
  /** What the home last had, where it does not answer now. */
  readonly lastKnown: readonly Stored[];
}

/** The home of this page: its server's folder; else the folder of this machine opened last; else the browser. `first` as for `list`. */
export async function openHome(first: string): Promise<OpenedHome> {
  const { home, notice, lasts } = await homeOfPage();
  const listed = await home.list(first);
  const page = crypto.randomUUID();
  const others = await livePages(page);
  const drafts = new Drafts((await openStore("drafts", isDraft)).store, home.id, page);
  const copies = new Copies((await openStore("copies", isCopies)).store, home.id);
  const notices = [
    ...(notice ? [notice] : []),
    ...(lasts
      ? []
      : [
          {
            text: "This browser keeps nothing for this page: what you type is gone when it is closed. Download it from the Document menu.",
          },
        ]),
  ];
  if (listed.ok) copies.keep(listed.documents);
  return {
    home,
    listed,
    notices,
    drafts,
    left: await drafts.left((other) => others.has(other)),
    later: (tell) => whenGone(others, drafts, tell),
    copies,
    lastKnown: listed.ok ? [] : await copies.all(),
  };
}

const pageLock = "rotaline-page ";

/** The other pages of this browser that are open; this one is from now on. A page that dies lets go of its lock by that. */
async function livePages(own: string): Promise<ReadonlySet<string>> {
  if (!("locks" in navigator)) return new Set();
  void navigator.locks.request(pageLock + own, () => new Promise(() => undefined));
  const { held = [] } = await navigator.locks.query();
  return new Set(held.flatMap(({ name }) => (name?.startsWith(pageLock) && name !== pageLock + own ? [name.slice(pageLock.length)] : [])));
}

/** A page that is about to die when this one looks, or dies later: its lock comes free then, and what it left is known. */
function whenGone(pages: ReadonlySet<string>, drafts: Drafts, tell: (left: readonly LeftDraft[]) => void): void {
  for (const page of pages) void navigator.locks.request(pageLock + page, async () => tell(await drafts.left((other) => other !== page)));
}

async function homeOfPage(): Promise<{ readonly home: Home; readonly notice: Notice | null; readonly lasts: boolean }> {
  const served = serverHome();
  if (served) return { home: served, notice: null, lasts: true };
  const folder = await rememberedFolder();
  if (folder?.home) return { home: folder.home, notice: null, lasts: true };
  const { store, lasts } = await openStore("documents", isText);
  const home = new BrowserHome(store, demo);
  if (!folder) return { home, notice: null, lasts };
  const text = `The folder ${folder.name} was open last time; the browser asks you again before it reads it.`;
  return { home, notice: { text, action: { label: "Open it", run: () => void openFolder() } }, lasts };
}

/** The texts that a home had last, for when it does not answer. */
export class Copies {
  private kept = "";

  constructor(
    private readonly store: TextStore<readonly Stored[]>,
    private readonly home: string,
  ) {}

  keep(documents: readonly Stored[]): void {
    const versions = JSON.stringify(documents.map(({ path, version }) => [path, version]));
    if (versions === this.kept) return;
    this.kept = versions;
    void this.store.change(this.home, () => ({ kind: "put", value: documents })).catch(() => undefined);
  }

  async all(): Promise<readonly Stored[]> {
    return (await this.store.change(this.home, () => ({ kind: "keep" })).catch(() => undefined)) ?? [];
  }
}

function isText(value: unknown): value is string {
  return typeof value === "string";
}

function isCopies(value: unknown): value is readonly Stored[] {
  return Array.isArray(value);
}
