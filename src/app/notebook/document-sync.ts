import type { Stored } from "../homes/home.js";
import type { Drafts } from "./drafts.js";
import { merged } from "./merge.js";

/** How a document stands to its home. */
export type SyncState =
  /** The home has this text. */
  | { readonly kind: "clean" }
  /** Changed since, and not on its way. */
  | { readonly kind: "dirty" }
  /** The text of a revision is on its way. */
  | { readonly kind: "saving"; readonly revision: number }
  /** Somebody else changed the same place (null: took the document away); nothing is sent until the coach has said what stands. */
  | { readonly kind: "conflict"; readonly theirs: Stored | null }
  /** Taken away, or moved to another path. */
  | { readonly kind: "gone" };

/** What meeting somebody else's text came to. */
export type Met = "same" | "theirs" | "merged" | "conflict";

/**
 * One document between the editor and its home. Each change is a revision and a draft; the document is clean only when
 * the home has taken the very revision that was sent. Nothing is dropped: a text is in the home, in a draft or in a
 * conflict.
 */
export class DocumentSync {
  private now: SyncState;
  private revision = 0;
  /** What the home was last known to have. */
  private base: Stored | null;
  private crlf: boolean;
  /** The draft that is being written: nothing is sent before it is safe. */
  private drafted: Promise<unknown> = Promise.resolve();

  constructor(
    public path: string,
    private typed: string,
    base: Stored | null,
    private readonly drafts: Drafts,
  ) {
    this.base = base && { ...base, text: plainLines(base.text) };
    this.crlf = base?.text.includes("\r\n") ?? false;
    this.now = this.base?.text === typed ? { kind: "clean" } : { kind: "dirty" };
  }

  /** A document as its home has it. */
  static of(stored: Stored, drafts: Drafts): DocumentSync {
    return new DocumentSync(stored.path, plainLines(stored.text), stored, drafts);
  }

  get text(): string {
    return this.typed;
  }

  get state(): SyncState {
    return this.now;
  }

  /** The version of the home's text that ours stands on; null where the home has none. */
  get version(): string | null {
    return this.base?.version ?? null;
  }

  /** Another text, typed or put in its place. False where it is the same. */
  edit(text: string): boolean {
    if (this.typed === text || this.now.kind === "gone") return false;
    this.typed = text;
    this.revision += 1;
    if (this.now.kind === "clean") this.now = { kind: "dirty" };
    this.keep();
    return true;
  }

  /** Begins to send: what goes out, and over which version. Null where there is nothing to send. */
  async send(): Promise<{ readonly text: string; readonly seen: string | null } | null> {
    await this.drafted;
    if (this.now.kind !== "dirty") return null;
    this.now = { kind: "saving", revision: this.revision };
    return { text: this.outgoing, seen: this.version };
  }

  /** The home took what was sent, and calls it this version. */
  sent(text: string, version: string): void {
    this.base = { path: this.path, text: plainLines(text), version };
    if (this.now.kind !== "saving") return;
    const clean = this.now.revision === this.revision;
    this.now = { kind: clean ? "clean" : "dirty" };
    if (clean) void this.drafts.drop(this.path);
    else this.keep();
  }

  /** The home did not take it, and has not changed. */
  notSent(): void {
    if (this.now.kind === "saving") this.now = { kind: "dirty" };
  }

  /** The home has another text than ours stands on (null: none any more). */
  meet(theirs: Stored | null): Met {
    const text = theirs && plainLines(theirs.text);
    if (theirs && text === this.typed) return this.takeOver(theirs, "same");
    if (theirs && this.now.kind === "clean") {
      this.typed = text ?? "";
      return this.takeOver(theirs, "theirs");
    }
    const both = theirs && text !== null && this.base && this.now.kind !== "conflict" ? merged(this.typed, this.base.text, text) : null;
    if (theirs && both !== null) {
      this.typed = both;
      return this.takeOver(theirs, "merged");
    }
    this.now = { kind: "conflict", theirs };
    this.keep();
    return "conflict";
  }

  /** Ends a conflict: this text stands, over theirs. */
  resolve(text: string): void {
    if (this.now.kind !== "conflict") return;
    const { theirs } = this.now;
    this.base = theirs && { ...theirs, text: plainLines(theirs.text) };
    this.typed = text;
    this.revision += 1;
    this.now = { kind: "dirty" };
    this.keep();
  }

  /** Goes by another path from now on; the home has taken `text` there as this version. */
  moved(to: string, text: string, version: string): void {
    void this.drafts.drop(this.path);
    this.path = to;
    this.base = { path: to, text: plainLines(text), version };
    this.now = { kind: this.base.text === this.typed ? "clean" : "dirty" };
    if (this.now.kind === "dirty") this.keep();
  }

  /** What would go to the home now, with the line ends that it has there. */
  get outgoing(): string {
    return this.crlf ? this.typed.replace(/\n/g, "\r\n") : this.typed;
  }

  /** Kept when the last change is on the disk, or cannot be. */
  safe(): Promise<unknown> {
    return this.drafted;
  }

  /** The document is no more. */
  end(): void {
    this.now = { kind: "gone" };
    void this.drafts.drop(this.path);
  }

  private takeOver(theirs: Stored, met: Met): Met {
    this.base = { ...theirs, text: plainLines(theirs.text) };
    this.crlf = theirs.text.includes("\r\n");
    this.revision += 1;
    this.now = { kind: met === "merged" ? "dirty" : "clean" };
    if (met === "merged") this.keep();
    else void this.drafts.drop(this.path);
    return met;
  }

  private keep(): void {
    const over = this.base && { version: this.base.version, text: this.base.text };
    this.drafted = this.drafts.keep(this.path, { text: this.typed, over });
  }
}

function plainLines(text: string): string {
  return text.replace(/\r\n?/g, "\n");
}
