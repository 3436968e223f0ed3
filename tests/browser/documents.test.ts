/** The notebook's documents: begun, renamed, duplicated, deleted, searched; and names, renamed everywhere. */
import { existsSync, readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import type { Page } from "playwright-core";
import { describe, expect, it } from "vitest";
import { answerBeside, choose, openDocument, type Served, textOf, typeAfter } from "./page.js";
import { useBrowser } from "./use-browser.js";

let served: Served;
let page: Page;
useBrowser((fresh) => ({ served, page } = fresh));

const file = (path: string) => readFileSync(join(served.folder, path), "utf8");
const there = (path: string) => existsSync(join(served.folder, path));

describe("documents", () => {
  it("begin from a template, with answers at once, by keyboard alone", async () => {
    await openDocument(page, served.url, "one-file.rota");
    await page.locator("rota-documents .begin").focus();
    await page.keyboard.press("Enter");
    await page.locator("dialog[open] input[name=value]").waitFor();
    await page.keyboard.type("friday trial");
    await page.keyboard.press("Enter");
    await page.locator(".text h2", { hasText: "friday-trial.rota" }).waitFor();
    await expect.poll(() => answerBeside(page, "plan Short Sets")).toMatch(/^\d:\d\d on (paper|the middle day) · /);
    await expect.poll(() => there("friday-trial.rota")).toBe(true);
  });

  it("do not begin under a name that is taken, or that leads out of the folder", async () => {
    await openDocument(page, served.url, "one-file.rota");
    for (const [name, reason] of [
      ["team", "There is already a document team.rota."],
      ["../x", "A name begins with a letter or digit"],
    ] as const) {
      await page.locator("rota-documents .begin").click();
      await page.locator("dialog[open] input[name=value]").fill(name);
      await page.keyboard.press("Enter");
      await page.locator("dialog[open] .wrong", { hasText: reason }).waitFor();
      await page.keyboard.press("Escape");
    }
    expect(readdirSync(join(served.folder, "..")).sort()).toEqual(["lighthouse"]);
  });

  it("are renamed: the file goes by the new name, and what uses it follows", async () => {
    await openDocument(page, served.url, "week.rota");
    await page.locator(".cm-content").click();
    await page.keyboard.press("Control+Home");
    await page.keyboard.type('use "team.rota"\n');
    await page.locator("rota-documents button", { hasText: /^\s*team/ }).click();
    await choose(page, "Document", "Rename");
    await page.locator("dialog[open] input[name=value]").fill("crew");
    await page.keyboard.press("Enter");
    await page.locator(".text h2", { hasText: "crew.rota" }).waitFor();
    await expect
      .poll(() => [there("crew.rota"), there("team.rota"), file("week.rota").split("\n")[0]])
      .toEqual([true, false, 'use "crew.rota"']);
  });

  it("take what was typed a moment ago with them when they are renamed or deleted", async () => {
    await openDocument(page, served.url, "one-file.rota");
    await typeAfter(page, "plan Simple for Sprint", " // just now");
    await choose(page, "Document", "Rename");
    await page.locator("dialog[open] input[name=value]").fill("kept");
    await page.keyboard.press("Enter");
    await page.locator(".text h2", { hasText: "kept.rota" }).waitFor();
    await expect
      .poll(() => [there("one-file.rota"), there("kept.rota") && file("kept.rota").includes("// just now")])
      .toEqual([false, true]);
    await typeAfter(page, "plan Simple for Sprint", " and again");
    await expect.poll(() => file("kept.rota")).toContain("// just now and again");
    await typeAfter(page, "plan Simple for Sprint", " and gone");
    await choose(page, "Document", "Delete");
    await expect.poll(() => there("kept.rota")).toBe(false);
  });

  it("are duplicated, deleted and brought back", async () => {
    await openDocument(page, served.url, "one-file.rota");
    await choose(page, "Document", "Duplicate");
    await page.locator(".text h2", { hasText: "one-file-2.rota" }).waitFor();
    await expect.poll(() => there("one-file-2.rota") && file("one-file-2.rota")).toContain('plan "Simple 2" for "Sprint 2"');
    const text = file("one-file-2.rota");
    // The team and its tests are the notebook's; the copy is for an event of its own, and nothing is declared twice.
    expect(text).not.toContain("team Pier Nine");
    await expect.poll(() => answerBeside(page, "Simple 2")).toMatch(/^1:41 on /);
    expect(await page.locator(".cm-lintRange").count()).toBe(0);
    await choose(page, "Document", "Delete");
    await expect.poll(() => there("one-file-2.rota")).toBe(false);
    await page.locator(".notice button", { hasText: "Bring it back" }).click();
    await expect.poll(() => there("one-file-2.rota") && file("one-file-2.rota")).toBe(text);
  });

  it("are searched through, and a line found is gone to", async () => {
    await openDocument(page, served.url, "one-file.rota");
    await page.locator(".search input").fill("everybody holds");
    await page.locator(".results mark", { hasText: /everybody holds/i }).waitFor();
    await page.keyboard.press("Enter");
    await page.locator(".text h2", { hasText: "breakwater.rota" }).waitFor();
    expect(await page.locator(".cm-activeLine").textContent()).toContain("Two move, one holds");
  });

  it("keep their own undo while others are looked at", async () => {
    await openDocument(page, served.url, "one-file.rota");
    const before = await textOf(page);
    await page.locator(".cm-line", { hasText: "Ada 5" }).click();
    await page.keyboard.press("End");
    await page.keyboard.type("0");
    await page.locator("rota-documents button", { hasText: "week" }).click();
    await page.locator("rota-documents button", { hasText: "one-file" }).click();
    await page.locator(".cm-line", { hasText: "Ada 50" }).waitFor();
    await page.keyboard.press("Control+z");
    expect(await textOf(page)).toBe(before);
    // Shown once more while it is shown, it keeps what was typed since it was last left.
    await typeAfter(page, "Olu 5", "0");
    await page.locator("rota-documents button", { hasText: "one-file" }).click();
    await page.locator(".cm-line", { hasText: "Olu 50" }).waitFor();
    await page.keyboard.press("Control+z");
    await page.locator(".cm-line", { hasText: /Olu 5$/ }).waitFor();
  });
});

describe("a name", () => {
  it("is renamed in every document, and one press takes it back", async () => {
    await openDocument(page, served.url, "breakwater.rota");
    const before = ["breakwater.rota", "team.rota", "tandem-tide.rota", "after.rota"].map(file);
    const askedForInes = async (): Promise<void> => {
      await page.locator(".cm-line", { hasText: "pair A  Ines + Marta" }).first().click();
      await page.keyboard.press("Home");
      for (let step = 0; step < 10; step += 1) await page.keyboard.press("ArrowRight");
      await page.keyboard.press("F2");
      await page.locator("dialog[open] h2", { hasText: "Rename the athlete Ines" }).waitFor();
    };
    await askedForInes();
    await page.locator("dialog[open] input[name=value]").fill("Zora");
    await page.keyboard.press("Enter");
    await page.locator(".notice", { hasText: /Ines is Zora now, in \d+ places/ }).waitFor();
    await expect
      .poll(() => ["breakwater.rota", "team.rota", "tandem-tide.rota", "after.rota"].map((path) => file(path).includes("Ines")))
      .toEqual([false, false, false, false]);
    await expect.poll(() => answerBeside(page, "plan Steady")).toMatch(/^13:\d\d on (paper|the middle day)/);
    await page.locator(".notice button", { hasText: "Take it back" }).click();
    await expect.poll(() => ["breakwater.rota", "team.rota", "tandem-tide.rota", "after.rota"].map(file)).toEqual(before);
    // So does the key, straight after; and what an athlete cannot be called is said where it is typed.
    await askedForInes();
    await page.locator("dialog[open] input[name=value]").fill("Zora Lee");
    await page.keyboard.press("Enter");
    await page.locator("dialog[open] .wrong", { hasText: "one word" }).waitFor();
    await page.locator("dialog[open] input[name=value]").fill("Zora");
    await page.keyboard.press("Enter");
    await expect.poll(() => file("team.rota").includes("Zora")).toBe(true);
    await page.locator(".cm-content").press("Control+z");
    await expect.poll(() => ["breakwater.rota", "team.rota", "tandem-tide.rota", "after.rota"].map(file)).toEqual(before);
  });

  it("keeps Tab for indenting; Escape, then Tab, leaves the text, as the menu says", async () => {
    await openDocument(page, served.url, "one-file.rota");
    await page.locator(".cm-line", { hasText: "Olu 5" }).first().click();
    await page.locator("rota-menu[label=Text] .opens").click();
    expect(await page.locator("rota-menu[label=Text]").textContent()).toMatch(/Leave the text\s*Esc, then Tab/);
    await page.keyboard.press("Escape");
    await page.locator(".cm-content").focus();
    await page.keyboard.press("Escape");
    await page.keyboard.press("Tab");
    expect(await page.evaluate(() => document.activeElement?.closest(".cm-content") ?? null)).toBe(null);
  });

  it("leads to where it is declared, in whichever document", async () => {
    await openDocument(page, served.url, "breakwater.rota");
    await page.locator(".cm-line", { hasText: "stage squats" }).first().click();
    await page.keyboard.press("End");
    await page.keyboard.press("F12");
    await page.locator(".text h2", { hasText: "events.rota" }).waitFor();
    expect(await page.locator(".cm-activeLine").textContent()).toContain("stage squats  150");
  });
});
