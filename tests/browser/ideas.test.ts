/** Suggestions and comparisons on the page: asked for, stopped, put into the document in one step that can be undone. */
import type { Page } from "playwright-core";
import { describe, expect, it } from "vitest";
import { answerBeside, openDocument, type Served } from "./page.js";
import { axeFindings, useBrowser } from "./use-browser.js";

let served: Served;
let page: Page;
useBrowser((fresh) => ({ served, page } = fresh), { bypassCSP: true });

const ideas = () => page.locator("rota-ideas");
const button = (name: RegExp) => ideas().getByRole("button", { name });

async function suggested(): Promise<void> {
  await button(/Suggest plans/).press("Enter");
  // Stopped at once, the search may have nothing yet that is better than the notebook's own plans, and says so. A busy
  // machine tries some hundred plans before the search ends by itself.
  await ideas()
    .getByText(/\d{3} plans tried/)
    .waitFor();
  await button(/Stop/).press("Enter");
  await button(/Suggest plans/).waitFor();
}

describe("ideas for the event at the cursor", () => {
  it("keep limits of the coach's own, typed as under a plan; what is no limit is told", async () => {
    await openDocument(page, served.url, "two-ladders.rota");
    await ideas().getByText("With limits of your own").press("Enter");
    const limits = ideas().getByRole("textbox");
    await limits.fill("rule sets 4");
    await button(/Suggest plans/).press("Enter");
    await ideas().getByText("“rule sets 4” is no limit here.").waitFor();
    await limits.fill("rule set at most 3 reps");
    await suggested();
    await expect.poll(() => ideas().locator("article pre").first().textContent()).toContain("rule set at most 3 reps");
    expect(await axeFindings(page)).toEqual([]);
  });

  it("come by key, can be stopped, and stay; a plan is put into the document as text, answered, and undone in one step", async () => {
    await openDocument(page, served.url, "two-ladders.rota");
    await suggested();
    expect(await ideas().locator("article").first().textContent()).toMatch(
      /\d+ reps.*No plan (that does one stage after another )?can have more than \d+ reps in this model/s,
    );
    expect(await ideas().locator("article").first().textContent()).toMatch(
      /(Somebody misses on \d+ % of days|Nobody misses on any of the days drawn)\./,
    );
    const before = await page.locator(".cm-content").textContent();
    await button(/Put it into the document/)
      .first()
      .press("Enter");
    const head = /plan .* for Two Ladders/.exec((await ideas().locator("article pre").first().textContent()) ?? "")?.[0] ?? "no plan";
    await page.keyboard.press("Control+End");
    await expect.poll(() => answerBeside(page, head)).toMatch(/^\d+ reps/);
    await page.keyboard.press("Control+z");
    expect(await page.locator(".cm-content").textContent()).toBe(before);
  });

  it("leave the typing alone while they are looked for", async () => {
    await openDocument(page, served.url, "one-file.rota");
    await button(/Suggest plans/).click();
    await ideas().locator("article").first().waitFor();
    await page.locator(".cm-line", { hasText: "Ada 5" }).click();
    await page.keyboard.press("End");
    await page.keyboard.press("Backspace");
    await page.keyboard.type("8");
    await expect.poll(() => answerBeside(page, "Ada 8"), { timeout: 3_000 }).toMatch(/^0:00 · 0:16/);
    expect(await button(/Stop/).isVisible()).toBe(true);
    await page.keyboard.press("Control+z");
  });

  it("sets the event's plans side by side and says how often one beats the other", async () => {
    await openDocument(page, served.url, "tandem-tide.rota");
    await button(/Compare Split, Matched/).click();
    await ideas().locator("table").waitFor();
    expect(await ideas().locator("[role=status]").textContent()).toMatch(/^Split beats Matched on \d+ % of 10,000 days\.$/);
    expect(await ideas().locator("thead th").allTextContents()).toEqual(["Split", "Matched"]);
    expect(await ideas().locator("tbody th").allTextContents()).toContain("beats Matched");
  });

  it("axe finds nothing with proposals and with a comparison on the page", async () => {
    await openDocument(page, served.url, "tandem-tide.rota");
    await suggested();
    expect(await axeFindings(page)).toEqual([]);
    await button(/Compare/).click();
    await ideas().locator("table").waitFor();
    expect(await axeFindings(page)).toEqual([]);
  });
});
