import { readFileSync } from "node:fs";
import { join } from "node:path";
import type { Browser, Page } from "playwright-core";
import { describe, expect, it } from "vitest";
import { root } from "../notebook.js";
import { answerBeside, openDocument, serveCopy, type Served, typeAfter, storedIn } from "./page.js";
import { axeFindings, useBrowser } from "./use-browser.js";

let browser: Browser;
let served: Served;
let page: Page;
const errors = useBrowser((fresh) => ({ browser, served, page } = fresh));

describe("the page", () => {
  it("shows the answer of each line beside it: 8 sets of 10 s and 7 handovers of 3 s", async () => {
    await openDocument(page, served.url, "one-file.rota");
    // The expected score at once; how it spreads over a thousand days in the next pause.
    expect(await answerBeside(page, "plan Simple for Sprint")).toMatch(
      /^(1:\d\d on the middle day · .* · )?1:41 on paper · 3:19 inside the cap$/,
    );
    await expect
      .poll(() => answerBeside(page, "plan Simple for Sprint"))
      .toMatch(/^1:4\d on the middle day · 1:(3\d|40)–1:4\d on 8 days of 10 · 1:41 on paper · 3:19 inside the cap$/);
    expect(await answerBeside(page, "Ada 5")).toMatch(/^0:00 · 0:10 · 5 of 40 · \d+ % · (▸ )?\d+ % · ×4$/);
    expect(await answerBeside(page, "Olu 5")).toMatch(/^0:13 · 0:23 · 10 of 40/);
  });

  it("shows the first screen's answers with the text, while its own worker still says nothing", async () => {
    await page.route("**/worker-*.js", (route) => route.abort());
    await page.goto(`${served.url}#one-file.rota`);
    await expect.poll(() => answerBeside(page, "plan Simple for Sprint")).toBe("1:41 on paper · 3:19 inside the cap");
    expect(await page.locator("rota-app[data-answered]").count()).toBe(0);
    errors.splice(0);
  });

  it("answers what is typed: a longer set makes longer turns, and the answer is in the folder's file within a second", async () => {
    await openDocument(page, served.url, "one-file.rota");
    await page.locator(".cm-line", { hasText: "Ada 5" }).click();
    await page.keyboard.press("End");
    await page.keyboard.press("Backspace");
    await page.keyboard.type("8");
    await page.waitForFunction(() => document.querySelector(".rota-answers")?.textContent?.includes("0:000:16"));
    // 40 = 8+5+8+5+8+5+1: 40 reps of 2 s and 6 handovers of 3 s are 98 s.
    expect(await answerBeside(page, "plan Simple for Sprint")).toMatch(/1:38 on paper · /);
    await page.waitForTimeout(1000);
    expect(readFileSync(join(served.folder, "one-file.rota"), "utf8")).toContain("    Ada 8\n");
    await page.keyboard.press("Control+z");
    await page.keyboard.press("Control+z");
    await page.waitForFunction(() => document.querySelector(".rota-answers")?.textContent?.includes("1:41"));
  });

  it("shows a finding under a typo, and its fix is one action that can be undone", async () => {
    await openDocument(page, served.url, "one-file.rota");
    await page.locator(".cm-line", { hasText: "Olu 5" }).click();
    await page.keyboard.press("Home");
    await page.keyboard.press("ArrowRight");
    await page.keyboard.type("l");
    const mark = page.locator(".cm-lintRange-error");
    await mark.first().waitFor();
    expect(await mark.first().textContent()).toBe("Ollu");
    expect(await page.locator("rota-documents [aria-current] .count").textContent()).toContain("error");
    // What is found in the cursor's line stands below the text: no tip covers it.
    await mark.first().hover();
    await page.locator("rota-detail .found button", { hasText: "write Olu" }).first().click();
    expect(await page.locator(".cm-tooltip-lint").count()).toBe(0);
    await mark.first().waitFor({ state: "detached" });
    expect(await page.locator(".cm-content").textContent()).toContain("    Olu 5");
    await page.locator(".cm-content").focus();
    await page.keyboard.press("Control+z");
    await mark.first().waitFor();
    await page.keyboard.press("Control+z");
  });

  it("says beside a compare line how often one plan beats the other", async () => {
    await openDocument(page, served.url, "tandem-tide.rota");
    await expect
      .poll(() => answerBeside(page, "compare Split"), { timeout: 5_000 })
      .toMatch(/^Split beats Matched on \d+ % of days · Split 9:\d\d, Matched 9:\d\d on the middle day$/);
  });

  it("keeps every other answer when a line is broken", async () => {
    await openDocument(page, served.url, "breakwater.rota");
    await expect
      .poll(() => answerBeside(page, "plan Steady"))
      .toMatch(/^13:\d\d on the middle day · \d+:\d\d–\d+:\d\d on 8 days of 10 · 13:20 on paper · /);
    const before = await answerBeside(page, "plan Steady");
    await page.locator(".cm-line", { hasText: "plan Steady" }).click();
    await page.keyboard.press("Control+End");
    await page.keyboard.press("ArrowLeft");
    await page.keyboard.type(" ((");
    await page.locator(".cm-lintRange-error").first().waitFor();
    await page.keyboard.press("Control+Home");
    await expect.poll(() => answerBeside(page, "plan Steady")).toBe(before);
    await page.keyboard.press("Control+z");
  });

  it("draws the plan at the cursor, and a piece of the picture leads to its line", async () => {
    await openDocument(page, served.url, "breakwater.rota");
    await page.locator("rota-lanes h2", { hasText: "Steady for Breakwater" }).waitFor();
    expect(await page.locator("rota-lanes g.lane").count()).toBe(4);
    await page.locator(".cm-line", { hasText: "plan Steady" }).click();
    await page.keyboard.press("Control+End");
    await page.locator(".cm-line", { hasText: "plan Bold" }).click();
    await page.locator("rota-lanes h2", { hasText: "Bold for Breakwater" }).waitFor();
    await page.locator("rota-lanes g.lane rect.work").nth(0).click();
    expect(await page.locator(".cm-activeLine").textContent()).toContain("A 18 each");
  });

  it("opens another document of the notebook from the list, by keyboard", async () => {
    await openDocument(page, served.url, "breakwater.rota");
    await page.locator("rota-documents button", { hasText: "one-file" }).focus();
    await page.keyboard.press("Enter");
    await page.locator(".text h2", { hasText: "one-file.rota" }).waitFor();
    await page.waitForFunction(() => document.querySelector(".rota-answers")?.textContent?.includes("1:41"));
  });

  it("explains the answer of the cursor's line, and reads it out by key", async () => {
    await openDocument(page, served.url, "one-file.rota");
    await page.locator(".cm-line", { hasText: "Ada 5" }).click();
    await page.locator(".detail", { hasText: /Ada, box jump\s*unbroken 20 reps \(measured, test\)/ }).waitFor();
    await page.keyboard.press("Alt+a");
    await page.waitForFunction(() => document.querySelector(".cm-announced")?.textContent?.includes("0:00–0:10"));
  });

  it("copies the text without the answers", async () => {
    await openDocument(page, served.url, "one-file.rota");
    const file = readFileSync(join(root, "notebooks/lighthouse/one-file.rota"), "utf8");
    await page.locator(".cm-content").click();
    await page.keyboard.press("Control+a");
    const copied = await page.evaluate(() => {
      let got = "";
      document
        .querySelector(".cm-content")
        ?.addEventListener(
          "copy",
          (event) => (got = (event instanceof ClipboardEvent && event.clipboardData?.getData("text/plain")) || ""),
          { once: true },
        );
      document.execCommand("copy");
      return got;
    });
    expect(copied.trim()).toBe(file.trim());
  });

  it("keeps text that could not be saved, and brings it back", async () => {
    const own = await serveCopy();
    await openDocument(page, own.url, "one-file.rota");
    await page.waitForTimeout(100);
    own.server.close();
    own.server.closeAllConnections();
    await typeAfter(page, "plan Simple for Sprint", " // and more");
    await page.locator(".notice", { hasText: "The server does not answer" }).waitFor();
    await expect.poll(async () => JSON.stringify(await storedIn(page, "drafts"))).toContain("Sprint // and more");
    await page.goto("about:blank");
    errors.splice(0);
  });

  it("on a phone shows answers under their lines and does not scroll sideways", async () => {
    await page.setViewportSize({ width: 360, height: 780 });
    await openDocument(page, served.url, "one-file.rota");
    await page.locator(".cm-line[data-answer^='1:41']").waitFor();
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(360);
    // The text has most of the screen, and can be touched.
    expect((await page.locator(".sheet").boundingBox())?.height).toBeGreaterThan(780 / 2);
    await page.locator(".cm-line", { hasText: "Ada 5" }).click({ timeout: 2_000 });
    await page.locator(".tabs button", { hasText: "picture" }).click();
    expect(await page.locator(".text").isVisible()).toBe(false);
    await page.locator("rota-lanes h2").waitFor();
    expect(await page.locator("rota-lanes h2").isVisible()).toBe(true);
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(360);
  });
});

describe("accessibility", () => {
  it.each([
    ["light", 1280],
    ["dark", 1280],
    ["light", 390],
    ["dark", 390],
  ] as const)("axe finds nothing in %s at %i px", async (colorScheme, width) => {
    const context = await browser.newContext({ colorScheme, viewport: { width, height: 900 }, bypassCSP: true });
    const own = await context.newPage();
    await openDocument(own, served.url, "breakwater.rota");
    expect(await axeFindings(own)).toEqual([]);
    await context.close();
  });
});
