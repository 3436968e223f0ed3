/** What is sent: it comes back as it was; what was changed, cut, made to burst, or is no plan is refused with a reason. */
import { deflateSync } from "node:zlib";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { documentsInFile, mostBytes, pack, parcelMark, unpack } from "../../src/1-text/parcel.js";
import { compile } from "../../src/compile.js";
import { neededBy } from "../../src/7-view/needed.js";
import { changeLines, planChanges } from "../../src/7-view/plan-changes.js";
import { singlePage } from "../../src/7-view/single-page.js";
import { lighthouse } from "../notebook.js";

const compiled = compile(lighthouse);
/** The same form, made by another hand: Node's zlib and its base64. */
const parcelOf = (text: string): string => `1.${deflateRaw(text).toString("base64url")}`;
const deflateRaw = (text: string): Buffer => deflateSync(Buffer.from(text), { level: 9 }).subarray(2, -4);

describe("a parcel", () => {
  it("comes back as it was, whatever the text", () => {
    fc.assert(
      fc.property(fc.array(fc.string({ unit: "binary", maxLength: 300 }), { minLength: 1, maxLength: 4 }), (texts) => {
        const documents = texts.map((text, at) => ({ path: `plan ${at}.rota`, text }));
        const found = unpack(pack(documents));
        expect(found).toEqual({ ok: true, documents: documents.map(({ path, text }) => ({ path, text: text.toWellFormed() })) });
      }),
      { numRuns: 200 },
    );
  });

  it("is deflate and base64 as the standards say: what zlib packs is read", () => {
    expect(unpack(parcelOf(JSON.stringify([["a.rota", "# A\n"]])))).toEqual({ ok: true, documents: [{ path: "a.rota", text: "# A\n" }] });
    expect(pack(lighthouse)).toMatch(/^1\.[\w-]+$/);
  });

  it.each([
    ["of a later version", "2.abc", "newer Rotaline"],
    ["of something else", "hello", "not one of Rotaline's"],
    ["cut short", pack(lighthouse).slice(0, 400), "cut short"],
    ["with a letter changed", pack(lighthouse).replace(/.(?=.{300}$)/, "!"), "cut short"],
    ["that is no list of documents", parcelOf('{"a":1}'), "no documents"],
    ["with a path out of the folder", parcelOf('[["../x.rota","# x"]]'), "no documents"],
    ["with a hidden path", parcelOf('[[".git/x.rota","# x"]]'), "no documents"],
    ["with a direction mark in its path", parcelOf('[["a\u202eb.rota","# x"]]'), "no documents"],
    ["with a prototype for a document", parcelOf('[{"__proto__":["a.rota","x"]}]'), "no documents"],
    ["with half a document", parcelOf('[["a.rota"]]'), "no documents"],
  ])("%s is refused", (_, parcel, reason) => {
    const found = unpack(parcel);
    expect(found.ok ? "taken" : found.reason).toContain(reason);
  });

  it("that would burst is stopped at the stated size, and soon", () => {
    // 300 MB of blanks are some 300 kB when they are packed.
    const bomb = `1.${deflateSync(Buffer.alloc(300_000_000, 32), { level: 9 }).subarray(2, -4).toString("base64url")}`;
    const before = process.memoryUsage().arrayBuffers;
    const found = unpack(bomb);
    expect(found.ok ? "taken" : found.reason).toContain(`more than ${mostBytes / 1_000_000} MB`);
    expect(process.memoryUsage().arrayBuffers - before).toBeLessThan(20_000_000);
  });

  it("holds a document and what it needs: alone it is answered as in the notebook", () => {
    for (const path of ["breakwater.rota", "tandem-tide.rota", "week.rota", "one-file.rota"]) {
      const documents = neededBy(path, compiled);
      const answers = (of: typeof compiled) => of.documents.get(path)?.blocks.map((block) => block.answers.map(({ shown }) => shown));
      expect(answers(compile(documents))).toEqual(answers(compiled));
    }
    expect(neededBy("one-file.rota", compiled).map(({ path }) => path)).toEqual(["one-file.rota"]);
  });
});

describe("a page of its own", () => {
  const hostile = `# <script>alert(1)</script>\nteam "<img src=x onerror=alert(1)>"\n  Ada woman\nevent "</style><script>x</script>"\n  cap 5 min\n  stage 20 "${"a".repeat(10_000)}"\nplan "\u202egnp.exe" for "</style><script>x</script>"\n  repeat\n    Ada 5\n`;

  it("carries its own text, and Rotaline reads it again", () => {
    const parcel = pack(neededBy("breakwater.rota", compiled));
    const page = singlePage("breakwater.rota", compiled, parcel);
    const found = documentsInFile("breakwater.html", page);
    expect(found.ok && found.documents).toEqual(neededBy("breakwater.rota", compiled));
    expect(page).toContain("plan Steady for Breakwater");
    expect(page).toContain("13:20 on paper");
    expect(page).toContain("<svg");
  });

  it("takes a document as text: no markup, no script, no direction mark of it stands in the page", () => {
    const documents = [{ path: "x.rota", text: hostile }];
    const page = singlePage("x.rota", compile(documents), pack(documents));
    expect(page).not.toMatch(/<script|<img|onerror=[^&]*alert\(1\)>/);
    expect(page).not.toMatch(/[\u202a-\u202e\u2066-\u2069]/);
    expect(page.match(/<\/style>/g)).toHaveLength(1);
    expect(page).toContain("default-src 'none'");
  });

  it("a file that is none of Rotaline's is said to be none", () => {
    expect(documentsInFile("letter.html", "<p>hello</p>")).toMatchObject({ ok: false });
    expect(documentsInFile("a.rota", "# A")).toEqual({ ok: true, documents: [{ path: "a.rota", text: "# A" }] });
    expect(documentsInFile("a.rota.txt", "# A")).toEqual({ ok: true, documents: [{ path: "a.rota", text: "# A" }] });
    const other = documentsInFile("x.html", `${parcelMark("9.x")}`);
    expect(other.ok ? "" : other.reason).toContain("newer Rotaline");
  });
});

describe("what a change of text does to the plans", () => {
  const changed = lighthouse.map(({ path, text }) => ({
    path,
    text: path === "breakwater.rota" ? text.replace("A 18 each", "A 17 each") : text,
  }));

  it("names the plan that changed, and no other: score, shares, findings that are new or settled", () => {
    const changes = planChanges(compiled, compile(changed));
    expect(changes.map(({ name }) => name)).toEqual(["Bold"]);
    expect(changes.flatMap(changeLines)[0]).toMatch(
      /^Bold: \d+:\d\d \(\d+:\d\d–\d+:\d\d\) → \d+:\d\d \(\d+:\d\d–\d+:\d\d\), better on \d+ % of days$/,
    );
    expect(planChanges(compiled, compile(lighthouse))).toEqual([]);
  });

  it("names plans that came and went", () => {
    const without = lighthouse.filter(({ path }) => path !== "one-file.rota");
    expect(planChanges(compiled, compile(without)).flatMap(changeLines)).toEqual(["Simple: gone, or without a timeline"]);
    expect(planChanges(compile(without), compiled).flatMap(changeLines)[0]).toMatch(/^Simple: new, 1:4\d/);
  });
});
