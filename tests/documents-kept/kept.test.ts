/**
 * Every word typed is in the home, in a draft or in a conflict, and nowhere it was not typed: random runs of typing, renaming,
 * deleting, others who write, a home that delays, fails, reorders and loses answers, pages that die and are loaded again. The same
 * over the real server and a folder on the disk, which is also stopped and started anew. RUNS=20000 and SERVED=1000 try as many; a
 * fixed part runs with the other tests.
 */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Home } from "../../src/app/homes/home.js";
import { type Draft, Drafts } from "../../src/app/notebook/drafts.js";
import { Notebook } from "../../src/app/notebook/notebook.js";
import { MemoryStore, type TextStore } from "../../src/app/notebook/store.js";
import { FakeHome } from "./fake-home.js";
import { ServedHome } from "./served-home.js";

const runs = Number(process.env.RUNS ?? 400);
const servedRuns = Number(process.env.SERVED ?? 40);
const names = ["a.rota", "b.rota", "c.rota"] as const;

type Step =
  | { readonly kind: "type"; readonly line: number }
  | { readonly kind: "pause" }
  | { readonly kind: "look" }
  | { readonly kind: "crash" }
  | { readonly kind: "answer"; readonly which: number; readonly how: "run" | "fail" | "lose" }
  | { readonly kind: "foreign"; readonly path: string; readonly line: number }
  | { readonly kind: "taken"; readonly path: string }
  | { readonly kind: "move"; readonly to: string }
  | { readonly kind: "open"; readonly path: string }
  | { readonly kind: "remove" }
  | { readonly kind: "resolve" }
  | { readonly kind: "restart" };

const path = fc.constantFrom(...names);
const line = fc.integer({ min: 0, max: 3 });
const step: fc.Arbitrary<Step> = fc.oneof(
  { weight: 8, arbitrary: fc.record({ kind: fc.constant("type" as const), line }) },
  { weight: 5, arbitrary: fc.constant({ kind: "pause" as const }) },
  {
    weight: 10,
    arbitrary: fc.record({
      kind: fc.constant("answer" as const),
      which: fc.nat(3),
      how: fc.constantFrom("run" as const, "run" as const, "run" as const, "fail" as const, "lose" as const),
    }),
  },
  { weight: 3, arbitrary: fc.constant({ kind: "look" as const }) },
  { weight: 2, arbitrary: fc.record({ kind: fc.constant("foreign" as const), path, line }) },
  { weight: 1, arbitrary: fc.record({ kind: fc.constant("taken" as const), path }) },
  { weight: 2, arbitrary: fc.record({ kind: fc.constant("move" as const), to: path }) },
  { weight: 2, arbitrary: fc.record({ kind: fc.constant("open" as const), path }) },
  { weight: 1, arbitrary: fc.constant({ kind: "remove" as const }) },
  { weight: 1, arbitrary: fc.constant({ kind: "resolve" as const }) },
  { weight: 2, arbitrary: fc.constant({ kind: "crash" as const }) },
  { weight: 1, arbitrary: fc.constant({ kind: "restart" as const }) },
);

/** One page over a home and a store that outlive it: an editor that shows one document, words typed into it, one after another. */
class World {
  readonly store = new MemoryStore<Draft>();
  /** Words that must be somewhere: typed and taken in, or written by others. */
  readonly safe = new Set<string>();
  /** Documents that the coach wanted deleted: what comes into them until that is done goes with them. */
  private readonly doomed = new Set<string>();
  private word = 0;
  private page = 0;
  private notebook: Notebook | null = null;
  private shown = "a.rota";
  private editor = "";
  private typedSince: string[] = [];
  /** Texts that a notice offers back. */
  readonly offered: (() => void)[] = [];

  constructor(private readonly home: FakeHome | ServedHome) {
    for (const name of names.slice(0, 2)) home.foreign(name, () => `# ${name}\none\ntwo\nthree`);
  }

  async load(): Promise<void> {
    this.page += 1;
    const page = this.page;
    // A page that is gone changes nothing any more, though its requests may still arrive.
    const store: TextStore<Draft> = {
      entries: () => this.store.entries(),
      change: (key, decide) => (page === this.page ? this.store.change(key, decide) : Promise.resolve(undefined)),
    };
    const drafts = new Drafts(store, "fake", String(page));
    const listed = await this.home.atOnce();
    const heard = <T>(answer: Promise<T>): Promise<T> =>
      answer.then((value) => (page === this.page ? value : new Promise<T>(() => undefined)));
    const home: Home = {
      kind: "served",
      name: "fake",
      id: "fake",
      lookMs: 1,
      list: () => heard(this.home.list()),
      save: (...all) => heard(this.home.save(...all)),
      remove: (...all) => heard(this.home.remove(...all)),
    };
    const notebook = new Notebook(home, drafts, {
      replaced: (at, text) => {
        if (page === this.page && at === this.shown) this.editor = text;
      },
      moved: (from, to) => {
        if (page === this.page && from === this.shown) this.shown = to;
      },
      removed: () => undefined,
      changed: () => undefined,
      told: ({ action }) => {
        if (page === this.page && action?.label === "Bring it back") this.offered.push(action.run);
      },
    });
    this.notebook = notebook;
    this.typedSince = [];
    if (!listed.ok) throw new Error(listed.reason);
    notebook.open(listed, await drafts.left(() => false), []);
    this.show(notebook.paths()[0] ?? "a.rota");
  }

  private show(path: string): void {
    this.notebook?.settleAll();
    this.takenIn();
    this.shown = path;
    this.editor = this.notebook?.textOf(path) ?? "";
  }

  /** What the notebook has read from the editor is safe from then on. */
  private takenIn(): void {
    for (const word of this.typedSince.splice(0)) if (!this.doomed.has(this.shown)) this.safe.add(word);
  }

  /** Words of a document need not be anywhere any more. */
  private mayGo(path: string): void {
    const texts = [this.notebook?.textOf(path) ?? "", this.home.texts.get(path)?.text ?? ""];
    for (const word of texts.join(" ").match(/[wf]\d+\./g) ?? []) this.safe.delete(word);
    this.doomed.add(path);
  }

  private newWord(by: string): string {
    this.word += 1;
    return `${by}${this.word}.`;
  }

  async take(step: Step): Promise<void> {
    const { notebook } = this;
    if (!notebook) return;
    switch (step.kind) {
      case "type": {
        const word = this.newWord("w");
        const lines = this.editor.split("\n");
        const at = Math.min(step.line, lines.length - 1);
        lines[at] = `${lines[at] ?? ""} ${word}`;
        this.editor = lines.join("\n");
        this.typedSince.push(word);
        const path = this.shown;
        notebook.typed(path, () => (this.shown === path ? this.editor : notebook.textOf(path)));
        break;
      }
      case "pause":
        notebook.settleAll();
        this.takenIn();
        break;
      case "answer":
        await this.home.answer(step.which, step.how);
        break;
      case "look":
        void notebook.compareWithHome();
        break;
      case "foreign": {
        const word = this.newWord("f");
        if (this.home.texts.has(step.path) && !this.doomed.has(step.path)) this.safe.add(word);
        this.home.foreign(step.path, (text) => {
          if (text === null) return null;
          const lines = text.split("\n");
          const at = Math.min(step.line, lines.length - 1);
          lines[at] = `${lines[at] ?? ""} ${word}`;
          return lines.join("\n");
        });
        break;
      }
      case "taken":
        this.take1(step.path);
        break;
      case "open":
        // The list shows what there is.
        if (notebook.paths().includes(step.path)) this.show(step.path);
        break;
      case "move":
        notebook.settleAll();
        this.takenIn();
        void notebook.move(this.shown, step.to);
        break;
      case "remove":
        notebook.settleAll();
        this.takenIn();
        // From here on what stands in it may go: by the coach's will, whether or not the answer comes.
        this.mayGo(this.shown);
        void notebook.remove(this.shown);
        break;
      case "resolve": {
        notebook.settleAll();
        this.takenIn();
        const theirs = notebook.theirsOf(this.shown);
        // Who resolves keeps both here: what stands must have every word.
        if (theirs !== undefined) notebook.resolve(this.shown, `${notebook.textOf(this.shown)}\n${theirs?.text ?? ""}`);
        break;
      }
      case "crash": {
        await flush();
        // What the coach deleted, and a page that is gone can offer back no more, is gone by the coach's will.
        const all = this.everywhere() + (await this.draftTexts());
        if (this.offered.splice(0).length > 0) for (const word of this.safe) if (!all.includes(word)) this.safe.delete(word);
        await this.load();
        break;
      }
      case "restart":
        await this.home.restart();
        break;
    }
    await flush();
  }

  /** Others take a document away: what stood in it, and was nowhere else, is gone by their will. */
  private take1(path: string): void {
    for (const word of this.home.texts.get(path)?.text.match(/[wf]\d+\./g) ?? []) this.safe.delete(word);
    this.home.foreign(path, () => null);
  }

  /** All places where text is kept. */
  everywhere(): string {
    const { notebook } = this;
    const conflicts = notebook?.conflicts().map((path) => `${notebook.textOf(path)} ${notebook.theirsOf(path)?.text ?? ""}`) ?? [];
    const page = notebook?.paths().map((path) => notebook.textOf(path)) ?? [];
    return [...this.home.texts.values()].map(({ text }) => text).join("\n") + conflicts.join("\n") + page.join("\n");
  }

  get notebookNow(): Notebook | null {
    return this.notebook;
  }

  async draftTexts(): Promise<string> {
    return (await this.store.entries()).map(([, { text }]) => text).join("\n");
  }

  /** The home answers all, until nothing is asked any more. */
  async calm(): Promise<void> {
    for (let round = 0; round < 60; round += 1) {
      await flush();
      while (this.home.open > 0) {
        await this.home.answer(0, "run");
        await flush();
      }
      if (round % 3 === 0) void this.notebook?.compareWithHome();
    }
  }
}

async function flush(): Promise<void> {
  for (let turn = 0; turn < 12; turn += 1) await Promise.resolve();
}

/** One run: after each step, and when all is calm again, every word is somewhere, and nowhere twice. */
async function keepsAll(home: FakeHome | ServedHome, steps: readonly Step[]): Promise<void> {
  const world = new World(home);
  await world.load();
  for (const one of steps) {
    await world.take(one);
    const all = world.everywhere() + (await world.draftTexts());
    // A deleted document is in the notice that offers it back, and comes home at the end.
    if (world.offered.length === 0)
      for (const word of world.safe) if (!all.includes(word)) throw new Error(`${word} is lost after ${JSON.stringify(one)}`);
  }
  await world.calm();
  for (const bringBack of world.offered) bringBack();
  await world.calm();
  const notebook = world.notebookNow;
  const conflicts = new Set(notebook?.conflicts() ?? []);
  const texts = [...home.texts.values()].map(({ text }) => text);
  const kept =
    texts.join("\n") + [...conflicts].map((path) => `${notebook?.textOf(path)} ${notebook?.theirsOf(path)?.text ?? ""}`).join("\n");
  for (const word of world.safe) if (!kept.includes(word)) throw new Error(`${word} never came home, and is in no conflict`);
  // Nothing stands twice in one text: no document was written over another, none was merged with itself.
  for (const text of texts) {
    const words = text.match(/w\d+\./g) ?? [];
    if (!conflicts.size && !steps.some(({ kind }) => kind === "resolve") && new Set(words).size !== words.length)
      throw new Error(`a word stands twice: ${text}`);
  }
}

describe("what is typed", () => {
  const manySteps = fc.array(step, { minLength: 5, maxLength: 60 });

  it(`is kept, whatever the home and others do: ${runs} runs`, async () => {
    await fc.assert(
      fc.asyncProperty(manySteps, (steps) => keepsAll(new FakeHome(), steps)),
      { seed: 20260314, numRuns: runs },
    );
    expect(runs).toBeGreaterThan(0);
  }, 3_600_000);

  it(`is kept in a folder on the disk, through the real server: ${servedRuns} runs`, async () => {
    await fc.assert(
      fc.asyncProperty(manySteps, async (steps) => {
        const home = await ServedHome.start();
        try {
          await keepsAll(home, steps);
        } finally {
          home.stop();
        }
      }),
      { seed: 20260314, numRuns: servedRuns },
    );
    expect(servedRuns).toBeGreaterThan(0);
  }, 3_600_000);
});
