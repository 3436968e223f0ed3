import type { Document } from "../1-text/document.js";
import { drafts, dropDraft, keepDraft } from "./homes/draft.js";
import type { Home, Listed, Stored } from "./homes/home.js";

/** How long after the first change it is saved; the changes in between go with it. */
const saveAfterMs = 300;

/** What the page is told: a text that came from elsewhere, a list or state that changed, and words for the coach. */
export interface NotebookEvents {
  readonly replaced: (path: string, text: string) => void;
  readonly changed: () => void;
  readonly told: (notice: Notice) => void;
}

export interface Notice {
  readonly text: string;
  /** What one press does about it. */
  readonly action?: { readonly label: string; readonly run: () => void };
}

/** A document in the page: its text, what its home has of it, and what somebody else made of it meanwhile. */
interface Sheet {
  text: string;
  /** The home's version that the text was typed over; null where the home has none. */
  over: string | null;
  saved: boolean;
  /** What is on its way to the home: the next text, a move and a removal wait for its version. */
  sending: Promise<void> | null;
  /** Somebody else's text, not yet put together with ours; null where it is gone there. Undefined: no conflict. */
  theirs: Stored | null | undefined;
  /** Line ends as the file has them. */
  readonly crlf: boolean;
}

/** The notebook's texts between the editor and their home. Nothing typed is lost, nothing of others is overwritten. */
export class Notebook {
  private readonly sheets = new Map<string, Sheet>();
  private readonly pending = new Map<string, { readonly timer: number; readonly read: () => string }>();
  private away = false;

  constructor(readonly home: Home, private readonly events: NotebookEvents) {}

  /** Takes in what the home listed, brings back drafts that were left, and looks out for others' changes from then on. */
  open(listed: Listed): void {
    if (!listed.ok) this.events.told({ text: listed.reason });
    for (const { path, text, version } of listed.ok ? listed.documents : []) this.sheets.set(path, sheetOf(text, version));
    for (const [path, draft] of drafts()) this.bringBack(path, draft.text, draft.over);
    this.away = !listed.ok;
    this.look();
    window.addEventListener("focus", () => void this.compareWithHome());
    window.addEventListener("storage", () => void this.compareWithHome());
  }

  paths(): readonly string[] {
    return [...this.sheets.keys()].sort();
  }

  textOf(path: string): string {
    return this.sheets.get(path)?.text ?? "";
  }

  documents(): readonly Document[] {
    this.settleAll();
    return this.paths().map((path) => ({ path, text: this.textOf(path) }));
  }

  /** The text of others that stands against ours; undefined where nothing does. */
  theirsOf(path: string): Stored | null | undefined {
    return this.sheets.get(path)?.theirs;
  }

  /** Whether all that was typed is with its home. */
  allSaved(): boolean {
    return this.pending.size === 0 && [...this.sheets.values()].every(({ saved }) => saved);
  }

  /** The document's text is about to be what `read` gives, once it is asked. */
  typed(path: string, read: () => string): void {
    if (this.pending.has(path)) return;
    const timer = window.setTimeout(() => this.settle(path), saveAfterMs);
    this.pending.set(path, { timer, read });
    this.events.changed();
  }

  /** Takes in all that was typed, and sends it home. */
  settleAll(): void {
    for (const path of [...this.pending.keys()]) this.settle(path);
  }

  private settle(path: string): void {
    const pending = this.pending.get(path);
    if (!pending) return;
    window.clearTimeout(pending.timer);
    this.pending.delete(path);
    this.write(path, pending.read());
  }

  /** Puts a text in a document's place, made where there is none. */
  write(path: string, text: string): void {
    const sheet = this.sheets.get(path) ?? sheetOf("", null);
    if (sheet.text === text && sheet.saved && sheet.over !== null) return;
    this.sheets.set(path, sheet);
    sheet.text = text;
    sheet.saved = false;
    keepDraft(path, { text, over: sheet.over });
    this.send(path);
  }

  /** Takes a document away; the notice offers it back. */
  async remove(path: string): Promise<void> {
    this.settle(path);
    const sheet = this.sheets.get(path);
    if (!sheet) return;
    await sheet.sending;
    const kept = sheet.over === null ? null : await this.home.remove(path, sheet.over);
    if (kept?.kind === "refused") return this.events.told({ text: kept.reason });
    if (kept?.kind === "changed" && kept.theirs) return this.meets(path, kept.theirs);
    this.sheets.delete(path);
    dropDraft(path);
    this.events.changed();
    this.events.told({ text: `${path} is deleted.`, action: { label: "Bring it back", run: () => this.bringOut(path, sheet.text) } });
  }

  private bringOut(path: string, text: string): void {
    this.write(path, text);
    this.events.changed();
  }

  /** Another name for a document. The text is written there before it goes here. */
  async move(path: string, to: string): Promise<boolean> {
    this.settle(path);
    const sheet = this.sheets.get(path);
    if (!sheet || this.sheets.has(to)) return false;
    await sheet.sending;
    const made = await this.home.save(to, outgoing(sheet), null);
    if (made.kind !== "kept") {
      this.events.told({ text: made.kind === "refused" ? made.reason : `There is already a document ${to}.` });
      return false;
    }
    this.sheets.set(to, { ...sheet, over: made.version, saved: true });
    this.sheets.delete(path);
    dropDraft(path);
    if (sheet.over !== null) await this.home.remove(path, sheet.over);
    this.events.changed();
    return true;
  }

  /** Ends a conflict: this text goes over theirs. */
  resolve(path: string, text: string): void {
    const sheet = this.sheets.get(path);
    if (!sheet || sheet.theirs === undefined) return;
    sheet.over = sheet.theirs?.version ?? null;
    sheet.theirs = undefined;
    this.write(path, text);
    this.events.replaced(path, text);
    this.events.changed();
  }

  private send(path: string): void {
    const sheet = this.sheets.get(path);
    if (!sheet || sheet.theirs !== undefined || sheet.sending) return;
    sheet.sending = this.deliver(path, sheet).finally(() => (sheet.sending = null));
  }

  /** Sends a text, and what was typed meanwhile, until the home has it all. */
  private async deliver(path: string, sheet: Sheet): Promise<void> {
    const { text } = sheet;
    const kept = await this.home.save(path, outgoing(sheet), sheet.over);
    if (kept.kind === "changed") return this.meets(path, kept.theirs);
    if (kept.kind === "refused") {
      if (!this.away) this.events.told({ text: kept.reason });
      this.away = true;
      return;
    }
    sheet.over = kept.version;
    this.back();
    if (sheet.text !== text) return this.deliver(path, sheet);
    sheet.saved = true;
    dropDraft(path);
    this.events.changed();
  }

  /** The home answers again. */
  private back(): void {
    if (!this.away) return;
    this.away = false;
    this.events.told({ text: "The notebook's home answers again; everything is saved there." });
  }

  private look(): void {
    window.setTimeout(() => void this.compareWithHome().finally(() => this.look()), this.home.lookMs);
  }

  /** Takes in what others wrote where nothing of ours stands against it, and sends what could not be sent before. */
  private async compareWithHome(): Promise<void> {
    if (document.visibilityState === "hidden") return;
    const before = new Map([...this.sheets].map(([path, { over }]) => [path, over]));
    const listed = await this.home.list();
    if (!listed.ok) return;
    const there = new Map(listed.documents.map((one) => [one.path, one]));
    for (const path of new Set([...there.keys(), ...before.keys()])) {
      // What we changed ourselves while the list was on its way is no news.
      if (before.get(path) === this.sheets.get(path)?.over) this.compare(path, there.get(path) ?? null);
    }
    for (const [path, { saved }] of this.sheets) if (!saved && !this.pending.has(path)) this.send(path);
  }

  private compare(path: string, theirs: Stored | null): void {
    const sheet = this.sheets.get(path);
    if ((sheet?.over ?? null) === (theirs?.version ?? null)) return;
    if (sheet && (!sheet.saved || this.pending.has(path))) return;
    if (theirs === null) {
      this.sheets.delete(path);
      this.events.told({ text: `${path} was taken away by somebody else.`, action: { label: "Bring it back", run: () => this.bringOut(path, sheet?.text ?? "") } });
    } else {
      this.sheets.set(path, sheetOf(theirs.text, theirs.version));
      this.events.replaced(path, this.textOf(path));
      if (sheet) this.events.told({ text: `${path} was changed by somebody else and is shown as it is now.` });
    }
    this.events.changed();
  }

  /** Somebody else wrote over what we typed over: the same words settle it, else both stand side by side. */
  private meets(path: string, theirs: Stored | null): void {
    const sheet = this.sheets.get(path);
    if (!sheet) return;
    if (theirs && sheetOf(theirs.text, null).text === sheet.text) {
      sheet.over = theirs.version;
      sheet.saved = true;
      dropDraft(path);
    } else {
      sheet.theirs = theirs;
      keepDraft(path, { text: sheet.text, over: sheet.over });
    }
    this.events.changed();
  }

  private bringBack(path: string, text: string, over: string | null): void {
    const sheet = this.sheets.get(path);
    if (sheet?.text === text) return dropDraft(path);
    const theirs = sheet ? { path, text: sheet.text, version: sheet.over ?? "" } : null;
    this.sheets.set(path, { ...(sheet ?? sheetOf("", null)), text, over, saved: false });
    this.events.told({ text: `Text of ${path} that was not saved has been brought back.` });
    if ((theirs?.version ?? null) !== over && theirs) this.meets(path, theirs);
    else this.send(path);
  }
}

function sheetOf(text: string, over: string | null): Sheet {
  return { text: text.replace(/\r\n?/g, "\n"), over, saved: true, sending: null, theirs: undefined, crlf: text.includes("\r\n") };
}

function outgoing({ text, crlf }: Sheet): string {
  return crlf ? text.replace(/\n/g, "\r\n") : text;
}
