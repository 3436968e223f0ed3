import type { Document } from "../../1-text/document.js";
import type { TextStore } from "../notebook/store.js";
import { changedSince, type Home, type HomeAnswer, type Listed } from "./home.js";

const begun = "\nbegun";
const full =
  "This browser's storage is full, so the last change is on this page only. Download the document from its menu, or delete one that is not needed.";

/**
 * The notebook in this browser's storage, begun with the demo. Each change is compared and written in one step, and on
 * the disk when it is kept; a document's version is its text.
 */
export class BrowserHome implements Home {
  readonly kind = "browser";
  readonly name = "this browser";
  readonly id = "browser";
  readonly lookMs = 1_000;

  constructor(
    private readonly store: TextStore<string>,
    private readonly demo: readonly Document[],
  ) {}

  async list(): Promise<Listed> {
    try {
      let entries = await this.store.entries();
      if (!entries.some(([path]) => path === begun)) {
        for (const { path, text } of this.demo)
          await this.store.change(path, (had) => (had === undefined ? { kind: "put", value: text } : { kind: "keep" }));
        await this.store.change(begun, () => ({ kind: "put", value: "" }));
        entries = await this.store.entries();
      }
      const documents = entries.flatMap(([path, text]) => (path === begun ? [] : [{ path, text, version: text }]));
      return { ok: true, documents };
    } catch {
      return {
        ok: false,
        reason: "This browser does not give its storage. What you type stays on this page only: download it from the Document menu.",
      };
    }
  }

  save(path: string, text: string, seen: string | null): Promise<HomeAnswer> {
    return this.change(path, seen, { kind: "put", value: text });
  }

  remove(path: string, seen: string): Promise<HomeAnswer> {
    return this.change(path, seen, { kind: "delete" });
  }

  private async change(
    path: string,
    seen: string | null,
    change: { kind: "put"; value: string } | { kind: "delete" },
  ): Promise<HomeAnswer> {
    try {
      const had = (await this.store.change(path, (text) => ((text ?? null) === seen ? change : { kind: "keep" }))) ?? null;
      return changedSince(path, had, seen) ?? { kind: "kept", version: change.kind === "put" ? change.value : "" };
    } catch {
      return { kind: "refused", reason: full };
    }
  }
}
