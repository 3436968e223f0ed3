/** Text that has not reached its home yet, kept by the home it is meant for. */
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { type Draft, Drafts } from "../../src/app/notebook/drafts.js";
import { MemoryStore } from "../../src/app/notebook/store.js";
import { root } from "../notebook.js";

describe("a draft", () => {
  it("of one folder is no other folder's, on the same address or not", async () => {
    const store = new MemoryStore<Draft>();
    const draft: Draft = { text: "# mine\n", over: null };
    await new Drafts(store, "one", "page").keep("a.rota", draft);
    expect(await new Drafts(store, "two", "page").left(() => false)).toEqual([]);
    expect(await new Drafts(store, "one", "later").left(() => false)).toMatchObject([{ path: "a.rota", draft }]);
  });

  it("is on the disk when the browser says so, not seconds later", () => {
    expect(readFileSync(join(root, "src/app/notebook/store.ts"), "utf8")).toContain('"readwrite", { durability: "strict" }');
  });
});
