import type { Document } from "../../1-text/document.js";
import type { Home, HomeAnswer, Listed, Stored } from "../homes/home.js";
import { DocumentSync } from "./document-sync.js";
import type { Drafts, LeftDraft } from "./drafts.js";
import { PathQueue } from "./path-queue.js";

/** How long after the first change it is kept and sent; the changes in between go with it. */
export const settleAfterMs = 300;

/** What the page is told. */
export interface NotebookEvents {
  /** A text that came from elsewhere stands in the document's place, or in a new document's. */
  readonly replaced: (path: string, text: string) => void;
  /** A document goes by another path from now on. */
  readonly moved: (path: string, to: string) => void;
  /** A document is no more. */
  readonly removed: (path: string) => void;
  /** A list or a state changed. */
  readonly changed: () => void;
  readonly told: (notice: Notice) => void;
}

export interface Notice {
  readonly text: string;
  /** What one press does about it. */
  readonly action?: { readonly label: string; readonly run: () => void };
}

/** The notebook's documents between the editor and their home. Nothing typed is lost, nothing of others is overwritten. */
export class Notebook {
  private readonly documentsBy = new Map<string, DocumentSync>();
  private readonly pending = new Map<string, { readonly timer: ReturnType<typeof setTimeout>; readonly read: () => string }>();
  private readonly queue = new PathQueue();
  private away = false;

  constructor(
    readonly home: Home,
    private readonly drafts: Drafts,
    private readonly events: NotebookEvents,
  ) {}

  /** Takes in what the home listed, and the drafts that were left. `copies` stand in where the home does not answer. */
  open(listed: Listed, left: readonly LeftDraft[], copies: readonly Stored[]): void {
    if (!listed.ok) this.events.told({ text: listed.reason });
    for (const reason of listed.ok ? (listed.unreadable ?? []) : []) this.events.told({ text: reason });
    for (const stored of listed.ok ? listed.documents : copies) this.documentsBy.set(stored.path, DocumentSync.of(stored, this.drafts));
    this.away = !listed.ok;
    for (const one of left) this.bringBack(one);
  }

  paths(): readonly string[] {
    return [...this.documentsBy.keys()].sort();
  }

  textOf(path: string): string {
    return this.documentsBy.get(path)?.text ?? "";
  }

  documents(): readonly Document[] {
    this.settleAll();
    return this.paths().map((path) => ({ path, text: this.textOf(path) }));
  }

  /** The text of others that stands against ours (null: they took it away); undefined where nothing does. */
  theirsOf(path: string): Stored | null | undefined {
    const state = this.documentsBy.get(path)?.state;
    return state?.kind === "conflict" ? state.theirs : undefined;
  }

  conflicts(): readonly string[] {
    return this.paths().filter((path) => this.theirsOf(path) !== undefined);
  }

  /** Whether all that was typed is with its home. */
  allSaved(): boolean {
    return this.pending.size === 0 && [...this.documentsBy.values()].every(({ state }) => state.kind === "clean");
  }

  /** The document's text is about to be what `read` gives, once it is asked. */
  typed(path: string, read: () => string): void {
    if (this.pending.has(path)) return;
    this.pending.set(path, { timer: setTimeout(() => this.settle(path), settleAfterMs), read });
    this.events.changed();
  }

  /** Takes in all that was typed, and sends it home. */
  settleAll(): void {
    for (const path of [...this.pending.keys()]) this.settle(path);
  }

  private settle(path: string): void {
    const text = this.takePending(path);
    if (text !== null) this.write(path, text);
  }

  /** Puts into a document what was typed in it so far, and does not send it. */
  private takeIn(document: DocumentSync): void {
    const text = this.takePending(document.path);
    if (text !== null) document.edit(text);
  }

  /** What was typed in a document and not taken in yet; null where nothing was. */
  private takePending(path: string): string | null {
    const pending = this.pending.get(path);
    if (!pending) return null;
    clearTimeout(pending.timer);
    this.pending.delete(path);
    return pending.read();
  }

  /** Puts a text in a document's place, made where there is none. */
  write(path: string, text: string): void {
    const known = this.documentsBy.get(path);
    if (known) known.edit(text);
    else this.begin(path, text);
    this.send(path);
    this.events.changed();
  }

  private begin(path: string, text: string): void {
    const document = new DocumentSync(path, "", null, this.drafts);
    document.edit(text);
    this.documentsBy.set(path, document);
    this.events.replaced(path, text);
  }

  /** Takes a document away; the notice offers it back, with what was typed until then. */
  remove(path: string): Promise<void> {
    this.settle(path);
    return this.queue.run([path], async () => {
      const document = this.documentsBy.get(path);
      if (!document) return;
      const kept: HomeAnswer = document.version === null ? { kind: "kept", version: "" } : await this.home.remove(path, document.version);
      if (kept.kind === "refused") return this.events.told({ text: kept.reason });
      if (kept.kind === "changed" && kept.theirs) return this.met(document, kept.theirs);
      const text = this.takePending(path) ?? document.text;
      this.drop(document);
      this.events.told({ text: `${path} is deleted.`, action: { label: "Bring it back", run: () => this.bringOut(path, text) } });
    });
  }

  /** Puts a text back; under another name, where something else stands in its place by now. */
  private bringOut(path: string, text: string): void {
    let free = path;
    for (let count = 2; this.documentsBy.has(free); count += 1) free = path.replace(/(-\d+)?\.rota$/, `-${count}.rota`);
    this.write(free, text);
    if (free !== path) this.events.told({ text: `${path} is another document by now: the old one is back as ${free}.` });
  }

  private drop(document: DocumentSync): void {
    this.documentsBy.delete(document.path);
    document.end();
    this.events.removed(document.path);
    this.events.changed();
  }

  /** Another name for a document. The text is written there before it goes here; what is typed meanwhile goes along. */
  move(path: string, to: string): Promise<boolean> {
    this.settle(path);
    return this.queue.run([path, to], async () => {
      const document = this.documentsBy.get(path);
      if (!document || this.documentsBy.has(to) || document.state.kind === "conflict") return false;
      const [text, seen] = [document.outgoing, document.version];
      const made = await this.home.save(to, text, null);
      if (made.kind !== "kept") {
        this.events.told({ text: made.kind === "refused" ? made.reason : `There is already a document ${to}.` });
        return false;
      }
      if (this.documentsBy.has(to)) {
        // Somebody began a document of that name meanwhile: the name is theirs.
        await this.home.remove(to, made.version);
        this.events.told({ text: `There is already a document ${to}.` });
        return false;
      }
      this.takeIn(document);
      this.documentsBy.delete(path);
      document.moved(to, text, made.version);
      this.documentsBy.set(to, document);
      this.events.moved(path, to);
      const left = seen === null ? null : await this.home.remove(path, seen);
      if (left?.kind === "changed" && left.theirs) this.documentsBy.set(path, DocumentSync.of(left.theirs, this.drafts));
      if (left?.kind === "refused") this.events.told({ text: `${path} could not be taken away: ${left.reason}` });
      this.send(to);
      this.events.changed();
      return true;
    });
  }

  /** Ends a conflict: this text goes over theirs. */
  resolve(path: string, text: string): void {
    const document = this.documentsBy.get(path);
    if (!document) return;
    this.takePending(path);
    document.resolve(text);
    this.events.replaced(path, text);
    this.send(path);
    this.events.changed();
  }

  private send(path: string): void {
    void this.queue.run([path], async () => {
      const document = this.documentsBy.get(path);
      const outgoing = await document?.send();
      if (!document || !outgoing) return;
      const kept = await this.home.save(path, outgoing.text, outgoing.seen);
      if (kept.kind === "changed") return this.met(document, kept.theirs);
      if (kept.kind === "refused") {
        document.notSent();
        if (!this.away) this.events.told({ text: kept.reason });
        this.away = true;
        return;
      }
      document.sent(outgoing.text, kept.version);
      this.back();
      if (document.state.kind === "dirty") this.send(path);
      this.events.changed();
    });
  }

  /** The home answers again. */
  private back(): void {
    if (!this.away) return;
    this.away = false;
    this.events.told({ text: "The notebook's home answers again; everything goes there." });
  }

  /** Takes in what others wrote, and sends what could not be sent before. Gives what the home has; null where it does not answer. */
  async compareWithHome(): Promise<readonly Stored[] | null> {
    const before = new Map([...this.documentsBy].map(([path, { version }]) => [path, version]));
    const listed = await this.home.list();
    if (!listed.ok) return null;
    const there = new Map(listed.documents.map((one) => [one.path, one]));
    for (const path of new Set([...there.keys(), ...before.keys()])) {
      // What we changed ourselves while the list was on its way is no news.
      const same = (before.get(path) ?? null) === (this.documentsBy.get(path)?.version ?? null);
      if (same && !this.queue.busy(path)) this.compare(path, there.get(path) ?? null);
    }
    for (const [path, { state }] of this.documentsBy) if (state.kind === "dirty" && !this.queue.busy(path)) this.send(path);
    return listed.documents;
  }

  private compare(path: string, theirs: Stored | null): void {
    const document = this.documentsBy.get(path);
    if (!document) {
      if (theirs === null) return;
      this.documentsBy.set(path, DocumentSync.of(theirs, this.drafts));
      this.events.replaced(path, this.textOf(path));
      return this.events.changed();
    }
    const known = document.state.kind === "conflict" ? (document.state.theirs?.version ?? null) : document.version;
    if (known === (theirs?.version ?? null)) return;
    this.takeIn(document);
    if (theirs === null && document.state.kind === "clean") {
      const { text } = document;
      this.drop(document);
      this.events.told({
        text: `${path} was taken away by somebody else.`,
        action: { label: "Bring it back", run: () => this.bringOut(path, text) },
      });
    } else this.met(document, theirs);
  }

  /** The home has another text than ours stands on: the same words settle it, changes in other places are put together. */
  private met(document: DocumentSync, theirs: Stored | null): void {
    const { path } = document;
    this.takeIn(document);
    switch (document.meet(theirs)) {
      case "same":
        break;
      case "theirs":
        this.events.replaced(path, document.text);
        this.events.told({ text: `${path} was changed by somebody else and is shown as it is now.` });
        break;
      case "merged":
        this.events.replaced(path, document.text);
        this.events.told({ text: `Somebody else changed another place of ${path}: both changes stand.` });
        this.send(path);
        break;
      case "conflict":
        break;
    }
    this.events.changed();
  }

  /** Drafts of a page that has died meanwhile. */
  bringBackLate(left: readonly LeftDraft[]): void {
    this.settleAll();
    for (const one of left) {
      this.bringBack(one);
      this.events.replaced(one.path, this.textOf(one.path));
    }
    this.events.changed();
  }

  private bringBack({ key, path, draft: { text, over } }: LeftDraft): void {
    const there = this.documentsBy.get(path);
    if (there?.text === text) return void this.drafts.forget(key);
    // Two pages left two texts of one document: the second stands beside the first.
    if (there && there.state.kind !== "clean") {
      this.bringOut(path, text);
      return void this.drafts.forget(key);
    }
    const base = over && { path, text: over.text, version: over.version };
    const document = new DocumentSync(path, "", base, this.drafts);
    document.edit(text);
    this.documentsBy.set(path, document);
    void document.safe().then(() => this.drafts.forget(key));
    this.events.told({ text: `Text of ${path} that was not saved has been brought back.` });
    if (there && there.version !== document.version) this.met(document, { path, text: there.text, version: there.version ?? "" });
    else this.send(path);
  }
}
