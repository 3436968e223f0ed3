/** The picture of a plan: walked by key, linked with the text both ways, said by a table. */
import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import type { Page } from "playwright-core";
import { describe, expect, it } from "vitest";
import { choose, openDocument, type Served } from "./page.js";
import { useBrowser } from "./use-browser.js";

let served: Served;
let page: Page;
useBrowser((fresh) => ({ served, page } = fresh));

const lit = () => page.locator(".cm-line.rota-lit").textContent();

describe("the picture", () => {
  it("is walked by arrow keys: each piece is said, its line lights up, Enter goes there", async () => {
    await openDocument(page, served.url, "breakwater.rota");
    await page.locator("rota-lanes .walk").focus();
    await page.keyboard.press("ArrowRight");
    expect(await page.locator(".walked[role=status]").textContent()).toMatch(/^0:00–0:1\d Ines works: 7 sandbag squat$/);
    expect(await lit()).toContain("A 29 % unbroken each   while Bram hold");
    await page.keyboard.press("ArrowDown");
    expect(await page.locator(".walked[role=status]").textContent()).toMatch(/^0:00–0:1\d Marta works: 6 sandbag squat$/);
    await page.keyboard.press("End");
    await page.keyboard.press("Home");
    await page.keyboard.press("Enter");
    expect(await page.locator(".cm-activeLine").textContent()).toContain("A 29 % unbroken each   while Bram hold");
    expect(await page.evaluate(() => document.activeElement?.className)).toContain("cm-content");
  });

  it("lights the line of the piece that is pointed at, and the pieces of the line that is pointed at", async () => {
    await openDocument(page, served.url, "breakwater.rota");
    await page.locator("rota-lanes g.lane rect.hold").first().hover();
    expect(await lit()).toContain("while");
    const line = page.locator(".cm-line", { hasText: "A 23 % unbroken each   while Tariq hold" });
    await line.hover();
    await page.locator("rota-lanes rect.lit").first().waitFor();
    const said = await page.locator("rota-lanes rect.lit").evaluateAll((pieces) => pieces.map((piece) => piece.textContent ?? ""));
    expect(said.some((words) => /Tariq holds: stone/.test(words))).toBe(true);
    expect(said.some((words) => /Ines works: \d+ ring row/.test(words))).toBe(true);
    expect(said.some((words) => /sandbag/.test(words))).toBe(false);
  });

  it("has a reserve under each lane, the spread of days, shares, and a table that says the same", async () => {
    await openDocument(page, served.url, "breakwater.rota");
    await page.locator("g.lane path.reserve").first().waitFor();
    expect(await page.locator("g.lane path.reserve").count()).toBe(4);
    await page.locator("rota-spread [role=img]").waitFor();
    expect(await page.locator("rota-spread [role=img]").getAttribute("aria-label")).toMatch(/^Eight days of ten lie between 13:\d\d and 15:\d\d\./);
    const shares = await page.locator("rota-lanes td.share").allTextContents();
    expect(shares.map((share) => Number(/\d+/.exec(share)?.[0])).reduce((sum, share) => sum + share, 0)).toBeCloseTo(100, -1);
    await page.locator("rota-lanes summary").click();
    expect(await page.locator("rota-lanes ol li").first().textContent()).toMatch(/^0:00–0:1\d Ines works: 7 sandbag squat$/);
  });

  it("says which untested recovery the score hangs on, and which test would tell", async () => {
    const path = join(served.folder, "team.rota");
    writeFileSync(path, readFileSync(path, "utf8").split("\n").filter((line) => !/^ *ring dip +in/.test(line)).join("\n"));
    await openDocument(page, served.url, "two-ladders.rota");
    await expect.poll(() => page.locator("rota-spread").textContent()).toMatch(/The score hangs on \w+'s recovery at ring dip, which nobody tested: \d+ reps between a slow and a fast one\. A row “ring dip in 5 min” would tell\./);
  });
});

describe("cards", () => {
  it("are shown from the menu, and kept as one file that opens alone", async () => {
    await openDocument(page, served.url, "breakwater.rota");
    await page.locator("rota-lanes .score").waitFor();
    await choose(page, "Document", "Cards for this plan");
    const cards = page.frameLocator("rota-cards iframe");
    await cards.locator(".card h1", { hasText: "Tariq" }).waitFor();
    expect(await cards.locator(".card h1").allTextContents()).toEqual(["Ines", "Marta", "Bram", "Tariq"]);
    const [file] = await Promise.all([page.waitForEvent("download"), page.getByRole("button", { name: "Keep as one file" }).click()]);
    expect(file.suggestedFilename()).toBe("Steady cards.html");
    expect(readFileSync(await file.path(), "utf8")).toMatch(/^<!doctype html>/);
    await page.getByRole("button", { name: "Close" }).click();
    expect(await page.locator("rota-cards dialog").isVisible()).toBe(false);
  });
});
