/** A number that is tried, and what matters, in the real page. */
import type { Page } from "playwright-core";
import { describe, expect, it } from "vitest";
import { answerBeside, openDocument, type Served, textOf } from "./page.js";
import { axeFindings, useBrowser } from "./use-browser.js";

let served: Served;
let page: Page;
useBrowser((fresh) => ({ served, page } = fresh), { bypassCSP: true });

const trial = () => page.locator("rota-trial");

/** Puts the cursor at the end of a line. */
async function at(words: string): Promise<void> {
  await page.locator(".cm-line", { hasText: words }).first().click();
  await page.keyboard.press("End");
}

describe("the number at the cursor", () => {
  it("is drawn with its neighbours: a curve, the share of days with trouble, the value that stands and the best", async () => {
    await openDocument(page, served.url, "one-file.rota");
    await at("    Ada 5");
    await trial().locator("h3", { hasText: "5 here" }).waitFor();
    await trial().locator("h3:not(:has-text('…'))").waitFor();
    expect(await trial().locator(".values button").allTextContents()).toEqual([
      "1",
      "2",
      "3",
      "4",
      "5",
      "6",
      "7",
      "8",
      "9",
      "10",
      "11",
      "12",
      "13",
    ]);
    expect(await trial().locator("button[aria-pressed=true]").textContent()).toBe("5");
    expect(await trial().locator("path.curve").getAttribute("d")).toMatch(/^M/);
    expect(await trial().locator(".values button").nth(4).getAttribute("title")).toMatch(/^5: 1:\d\d, a miss or a drop on \d+ % of days$/);
    // What the curve says of the value that stands is what stands beside the plan.
    const said = (await trial().locator(".values button").nth(4).getAttribute("title"))?.slice(3, 7);
    await expect.poll(() => answerBeside(page, "plan Simple")).toContain(`${said} on the middle day`);
  });

  it("is stepped by key, and a run of steps is one for undo; a touch takes a value", async () => {
    await openDocument(page, served.url, "one-file.rota");
    const before = await textOf(page);
    await at("    Ada 5");
    for (let step = 0; step < 3; step += 1) await page.keyboard.press("Alt+Shift+ArrowUp");
    expect(await textOf(page)).toContain("    Ada 8\n");
    await page.keyboard.press("Alt+Shift+ArrowDown");
    expect(await textOf(page)).toContain("    Ada 7\n");
    await page.keyboard.press("Control+z");
    expect(await textOf(page)).toBe(before);
    await at("    Ada 5");
    // What is drawn is of the text before the undo until its answer has come.
    await expect.poll(() => trial().locator("button[aria-pressed=true]").textContent()).toBe("5");
    await trial().locator(".values button", { hasText: /^10$/ }).click();
    await expect.poll(() => textOf(page)).toContain("    Ada 10\n");
    await page.locator(".cm-content").focus();
    await page.keyboard.press("Control+z");
    await expect.poll(() => textOf(page)).toBe(before);
  });

  it("is none in a test of abilities, nor in a heading", async () => {
    await openDocument(page, served.url, "one-file.rota");
    await at("    Ada 5");
    await trial().locator("h3").waitFor();
    await at("unbroken");
    await expect.poll(() => trial().locator("h3").count()).toBe(0);
  });
});

describe("what matters", () => {
  it("is looked for when asked, drawn the widest first, and said in words", async () => {
    await openDocument(page, served.url, "breakwater.rota");
    await page.locator("rota-matters button", { hasText: "Look what moves its score most" }).click();
    await page.locator("rota-matters li").first().waitFor();
    const widths = await page
      .locator("rota-matters li")
      .evaluateAll((all) =>
        all.map((one) => [...one.querySelectorAll("rect")].reduce((sum, bar) => sum + Number(bar.getAttribute("width")), 0)),
      );
    expect(widths.length).toBeGreaterThan(1);
    for (const [index, width] of widths.slice(1).entries()) expect(width).toBeLessThanOrEqual((widths[index] ?? 0) + 3);
    expect(await page.locator("rota-matters li").first().textContent()).toMatch(/\d\d:\d\d–\d\d:\d\d: /);
  });

  it.each([
    ["1280", 1280],
    ["390", 390],
  ] as const)("axe finds nothing in either at %s", async (_, width) => {
    await page.setViewportSize({ width, height: 844 });
    await openDocument(page, served.url, "one-file.rota");
    await at("    Ada 5");
    if (width < 700) await page.locator(".tabs button", { hasText: "picture" }).click();
    await trial().locator("h3").waitFor();
    expect(await axeFindings(page)).toEqual([]);
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(width);
  });
});
