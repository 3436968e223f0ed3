import type { TextStore } from "./store.js";

/**
 * Text that its home has not taken yet, kept in the browser until it has, with what it was typed over: so that after a
 * crash it is known whether somebody else has written meanwhile, and what both began with.
 */
export interface Draft {
  readonly text: string;
  /** Version and text of the home's that it was typed over; null for a document that its home has never had. */
  readonly over: { readonly version: string; readonly text: string } | null;
}

export function isDraft(value: unknown): value is Draft {
  return typeof value === "object" && value !== null && "text" in value && typeof value.text === "string" && "over" in value;
}

/** A draft that a page left which is no more. */
export interface LeftDraft {
  readonly key: string;
  readonly path: string;
  readonly draft: Draft;
}

/** One page's drafts of one home: a path of another folder is another document, and no page drops what another typed. */
export class Drafts {
  constructor(
    private readonly store: TextStore<Draft>,
    private readonly home: string,
    private readonly page: string,
  ) {}

  /** False where the browser has no room for it. */
  async keep(path: string, draft: Draft): Promise<boolean> {
    return this.store
      .change(this.key(path), () => ({ kind: "put", value: draft }))
      .then(
        () => true,
        () => false,
      );
  }

  drop(path: string): Promise<void> {
    return this.forget(this.key(path));
  }

  /** Throws a draft away that was brought back, and is kept as this page's own. */
  async forget(key: string): Promise<void> {
    await this.store.change(key, () => ({ kind: "delete" })).catch(() => undefined);
  }

  /** All that were left by pages that are no more. */
  async left(isAlive: (page: string) => boolean): Promise<readonly LeftDraft[]> {
    const entries = await this.store.entries().catch(() => []);
    return entries.flatMap(([key, draft]) => {
      const [home, path = "", page = ""] = key.split("\n");
      return home === this.home && page !== this.page && !isAlive(page) ? [{ key, path, draft }] : [];
    });
  }

  private key(path: string): string {
    return `${this.home}\n${path}\n${this.page}`;
  }
}
