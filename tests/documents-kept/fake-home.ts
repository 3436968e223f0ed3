import type { Home, HomeAnswer, Listed, Stored } from "../../src/app/homes/home.js";

/** A home that answers when it is told to: each request waits for its turn, may fail before or after it was carried out. */
export class FakeHome implements Home {
  readonly kind = "served";
  readonly name = "fake";
  readonly id = "fake";
  readonly lookMs = 1;
  readonly texts = new Map<string, Stored>();
  private readonly waiting: { readonly run: () => void; readonly fail: () => void; readonly lose: () => void }[] = [];
  private versions = 0;

  /** Requests that wait. */
  get open(): number {
    return this.waiting.length;
  }

  /** Answers one of the waiting requests: carried out and told; not carried out; or carried out, and the answer lost. */
  answer(which: number, how: "run" | "fail" | "lose"): void {
    const [request] = this.waiting.splice(which % Math.max(1, this.waiting.length), 1);
    request?.[how]();
  }

  /** The home is stopped and started anew: what was asked of it is not carried out. */
  restart(): void {
    for (const { fail } of this.waiting.splice(0)) fail();
  }

  /** Somebody else writes, or takes a document away, past any request. */
  foreign(path: string, change: (text: string | null) => string | null): void {
    const text = change(this.texts.get(path)?.text ?? null);
    if (text === null) this.texts.delete(path);
    else this.put(path, text);
  }

  /** What a page that is loaded is given, without waiting. */
  async atOnce(): Promise<Listed> {
    return { ok: true, documents: [...this.texts.values()] };
  }

  list(): Promise<Listed> {
    return this.later<Listed>(() => ({ ok: true, documents: [...this.texts.values()] }), { ok: false, reason: "away" });
  }

  save(path: string, text: string, seen: string | null): Promise<HomeAnswer> {
    return this.later<HomeAnswer>(() => this.changed(path, seen) ?? { kind: "kept", version: this.put(path, text) }, {
      kind: "refused",
      reason: "away",
    });
  }

  remove(path: string, seen: string): Promise<HomeAnswer> {
    return this.later<HomeAnswer>(
      () => {
        const changed = this.changed(path, seen);
        if (!changed) this.texts.delete(path);
        return changed ?? { kind: "kept", version: "" };
      },
      { kind: "refused", reason: "away" },
    );
  }

  private put(path: string, text: string): string {
    this.versions += 1;
    const version = String(this.versions);
    this.texts.set(path, { path, text, version });
    return version;
  }

  private changed(path: string, seen: string | null): HomeAnswer | null {
    const there = this.texts.get(path) ?? null;
    return (there?.version ?? null) === seen ? null : { kind: "changed", theirs: there };
  }

  private later<T>(carryOut: () => T, refused: T): Promise<T> {
    return new Promise((done) => {
      this.waiting.push({
        run: () => done(carryOut()),
        fail: () => done(refused),
        lose: () => {
          carryOut();
          done(refused);
        },
      });
    });
  }
}
