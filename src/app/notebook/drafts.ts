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

/** The drafts of one home: a path of another folder is another document. */
export class Drafts {
  constructor(
    private readonly store: TextStore<Draft>,
    private readonly home: string,
  ) {}

  /** False where the browser has no room for it. */
  async keep(path: string, draft: Draft): Promise<boolean> {
    return this.store.change(this.key(path), () => ({ kind: "put", value: draft })).then(() => true, () => false);
  }

  async drop(path: string): Promise<void> {
    await this.store.change(this.key(path), () => ({ kind: "delete" })).catch(() => undefined);
  }

  /** All that were left, by the path of their document. */
  async all(): Promise<ReadonlyMap<string, Draft>> {
    const prefix = this.key("");
    const entries = await this.store.entries().catch(() => []);
    return new Map(entries.flatMap(([key, draft]) => (key.startsWith(prefix) ? [[key.slice(prefix.length), draft] as const] : [])));
  }

  private key(path: string): string {
    return `${this.home}\n${path}`;
  }
}
