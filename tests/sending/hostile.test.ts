/** Hostile documents, wherever they are shown or sent: as text, on paper, in a calendar, on a terminal. They can do nothing. */
import { spawnSync } from "node:child_process";
import { mkdtempSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { getDocument } from "pdfjs-dist/legacy/build/pdf.mjs";
import { describe, expect, it } from "vitest";
import { pack } from "../../src/1-text/parcel.js";
import { compile } from "../../src/compile.js";
import { singlePage } from "../../src/7-view/single-page.js";
import { pierNine } from "../../src/5-findings/examples.js";
import { startBrowser } from "../browser/page.js";
import { root } from "../notebook.js";

const names = [
  "<script>window.hit=1</script>",
  "<img src=x onerror=window.hit=1>",
  "</style><script>window.hit=1</script>",
  "</title><svg onload=window.hit=1>",
  "javascript:window.hit=1",
  "__proto__",
  "constructor",
  "\u001b]0;title\u0007",
  "\u001b]52;c;aGk=\u0007",
  "\u009b31m",
  "\u202egnp.exe",
  "=HYPERLINK(1)",
  "x".repeat(10_000),
  "BEGIN:VALARM",
];

function hostile(name: string): string {
  const word = name.replaceAll('"', "");
  return `${pierNine}event "${word}"\n  cap 5 min\n  stage 10 box jump\n  standard ${word}\nplan "P ${word}" for "${word}"\n  cue ${word}\n  Ada 10\nweek "W ${word}"\n  zone Europe/Dublin\n  due 2026-03-26 20:00\n  2026-03-20 18:00 "${word}" plan "P ${word}"\n`;
}

const all = names
  .map((name, at) => ({ path: `h${at}.rota`, text: hostile(name).replace(pierNine, "") }))
  .concat({ path: "team.rota", text: pierNine });

describe("a hostile document", () => {
  it("as a page runs nothing; on paper it has no script, no action and no link", async () => {
    const browser = await startBrowser();
    try {
      const page = await browser.newPage();
      for (const name of names) {
        const documents = [{ path: "h.rota", text: hostile(name) }];
        await page.setContent(singlePage("h.rota", compile(documents), pack(documents)));
        expect(
          await page.evaluate(() => [
            Reflect.get(window, "hit"),
            document.querySelectorAll("script, img, iframe, object, a[href], [onload], [onerror]").length,
            document.querySelectorAll("style").length,
          ]),
        ).toEqual([undefined, 0, 1]);
      }
      await page.setContent(singlePage("h2.rota", compile(all), pack(all)));
      const pdf = await getDocument({ data: Uint8Array.from(await page.pdf()), useSystemFonts: true }).promise;
      expect(await pdf.getJSActions()).toBeNull();
      expect(await pdf.getOpenAction()).toBeNull();
      expect(await pdf.getAttachments()).toBeNull();
      for (let at = 1; at <= pdf.numPages; at += 1) expect(await (await pdf.getPage(at)).getAnnotations()).toEqual([]);
    } finally {
      await browser.close();
    }
  });

  it("in no command sends a control character or a direction mark to a terminal, and its calendar has the lines of a calendar alone", () => {
    const folder = mkdtempSync(join(tmpdir(), "rotaline-hostile-"));
    for (const { path, text } of all) writeFileSync(join(folder, path), text);
    const run = (...args: string[]) => spawnSync("node", [join(root, "dist/rotaline.js"), ...args], { encoding: "utf8", cwd: folder });
    const plan = `P ${names[0] ?? ""}`;
    for (const args of [
      ["check", "."],
      ["show", plan, "."],
      ["cards", plan, "."],
      ["table", plan, "."],
      ["week", "."],
      ["diff", "h0.rota", "h1.rota"],
      ["send", "h7.rota", "."],
    ]) {
      const { stdout, stderr } = run(...args);
      expect(
        `${args.join(" ")}: ${/[\u0000-\u0008\u000b\u000c\u000e-\u001f\u007f-\u009f\u202a-\u202e\u2066-\u2069]/.exec(stdout + stderr)?.index ?? "clean"}`,
      ).toBe(`${args.join(" ")}: clean`);
    }
    const { stdout } = run("week", `W ${names.at(-1) ?? ""}`, ".", "--calendar", "-");
    const lines = stdout.replaceAll("\r\n ", "").split("\r\n");
    // Of the events that are there, each has its one alarm, and the scores' hour its two: the name begins none.
    expect(lines.filter((line) => line === "BEGIN:VALARM").length).toBe(lines.filter((line) => line === "END:VALARM").length);
    expect(lines.filter((line) => line === "BEGIN:VEVENT").length).toBeGreaterThan(0);
    expect(lines.filter((line) => line === "BEGIN:VALARM").length).toBe(3);
  });
});
