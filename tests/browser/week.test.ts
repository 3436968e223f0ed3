/** The week on the page: what is left of each part of the body, linked with the text; its best order put in; its calendar file. */
import { readFileSync } from "node:fs";
import type { Page } from "playwright-core";
import { describe, expect, it } from "vitest";
import { answerBeside, choose, openDocument, type Served } from "./page.js";
import { axeFindings, useBrowser } from "./use-browser.js";

let served: Served;
let page: Page;
useBrowser((fresh) => ({ served, page } = fresh), { bypassCSP: true });

const lit = () => page.locator(".cm-line.rota-lit").textContent();
const orders = () => page.locator("rota-orders");

describe("a week on the page", () => {
  it("says beside each line what the days before have left, and draws it; pointing links the two", async () => {
    await openDocument(page, served.url, "week.rota");
    expect(await answerBeside(page, "2026-03-23 18:00")).toMatch(/^\d\d:\d\d · \d\d:\d\d · \w+'s \w+ · \d\d %$/);
    await page.locator("rota-week svg").first().waitFor();
    expect(await page.locator("rota-week g.part text").allTextContents()).toEqual([
      "grip",
      "pull",
      "push",
      "squat",
      "hinge",
      "trunk",
      "engine",
      "hands",
    ]);
    await page.locator("rota-week g.session").nth(2).hover();
    expect(await lit()).toContain("Breakwater");
    await page.locator(".cm-line", { hasText: "Tandem Tide" }).hover();
    await page.locator("rota-week g.session.lit").waitFor();
    expect(await page.locator("rota-week .events li.lit").textContent()).toContain("Tandem Tide");
    await page.locator("rota-week .events button", { hasText: "Double Shift" }).press("Enter");
    expect(await page.locator(".cm-activeLine").textContent()).toContain("Double Shift");
  });

  it("is put into its best order in one step, which Ctrl+Z takes back", async () => {
    await openDocument(page, served.url, "week.rota");
    const before = await page.locator(".cm-content").textContent();
    await orders().getByRole("button", { name: "Find the best order" }).press("Enter");
    await orders().locator("article", { hasText: "least given away" }).waitFor();
    await expect.poll(() => orders().locator("[role=status]").textContent()).toContain("Every order");
    expect(await axeFindings(page)).toEqual([]);
    await orders().getByRole("button", { name: "Put the week into this order" }).first().press("Enter");
    expect(await page.locator(".cm-content").textContent()).not.toBe(before);
    expect(await page.locator(".cm-line", { hasText: "again" }).last().textContent()).toContain("2026-03-26");
    await page.locator(".cm-content").focus();
    await page.keyboard.press("Control+z");
    expect(await page.locator(".cm-content").textContent()).toBe(before);
  });

  it("gives a calendar file", async () => {
    await openDocument(page, served.url, "week.rota");
    const [file] = await Promise.all([page.waitForEvent("download"), choose(page, "Document", "Calendar file of the week")]);
    expect(file.suggestedFilename()).toBe("Lighthouse Three.ics");
    const text = readFileSync(await file.path(), "utf8");
    expect(text).toMatch(/^BEGIN:VCALENDAR\r\n/);
    expect(text).toContain("SUMMARY:Breakwater");
  });

  it.each([
    ["light", 1280],
    ["dark", 1280],
    ["light", 390],
    ["dark", 390],
  ] as const)("axe finds nothing in %s at %i px", async (colorScheme, width) => {
    await page.emulateMedia({ colorScheme });
    await page.setViewportSize({ width, height: 844 });
    await openDocument(page, served.url, "week.rota");
    if (width < 600) await page.locator(".tabs button", { hasText: "picture" }).click();
    await page.locator("rota-week svg").first().waitFor();
    expect(await page.evaluate(() => document.documentElement.scrollWidth <= window.innerWidth)).toBe(true);
    expect(await axeFindings(page)).toEqual([]);
  });
});
