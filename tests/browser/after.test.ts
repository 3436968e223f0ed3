/** After the event: the log over the plan's lanes, what it says of abilities accepted as text, the second try in the week. */
import type { Page } from "playwright-core";
import { describe, expect, it } from "vitest";
import { answerBeside, openDocument, type Served, textOf } from "./page.js";
import { axeFindings, useBrowser } from "./use-browser.js";

let page: Page;
let served: Served;
useBrowser((fresh) => ({ page, served } = fresh), { bypassCSP: true });

describe("a log", () => {
  it("is answered line by line, and drawn over its plan's lanes", async () => {
    await openDocument(page, served.url, "after.rota");
    await page.locator(".cm-line", { hasText: "squats done" }).click();
    await page.locator("rota-lanes h2", { hasText: "Steady as planned, and as logged on 2026-03-23" }).waitFor();
    expect(await page.locator("rota-lanes .seen line").count()).toBe(3);
    expect(await answerBeside(page, "squats done")).toMatch(/^planned 4:16 · \d+ s later · as on eight days of ten$/);
    expect(await answerBeside(page, "log Steady")).toMatch(/squats: \d+ s lost, \d+ of them in \d+ handovers/);
    expect(await axeFindings(page)).toEqual([]);
  });

  it("says what it tells of abilities; rows are taken one by one, as text with today's undo", async () => {
    await openDocument(page, served.url, "after.rota");
    await page.locator(".cm-line", { hasText: "finish 13:58" }).click();
    await page.keyboard.press("End");
    await page.keyboard.press("Shift+Home");
    await page.keyboard.type("finish 14:52");
    await page.getByRole("button", { name: "Learn from the logs" }).click();
    const rows = page.locator("rota-lessons .choice");
    await rows.first().waitFor();
    expect(await rows.first().textContent()).toMatch(/→ .*four to one between .*That settles \d+ % of what the test left open/);
    expect(await axeFindings(page)).toEqual([]);
    const all = await rows.count();
    await rows.first().locator("input").uncheck();
    const before = await textOf(page);
    await page.getByRole("button", { name: "Put the table into the document" }).click();
    await expect.poll(() => textOf(page)).toMatch(/\nability on 2026-03-23 /);
    const cells =
      (await textOf(page))
        .split("ability on 2026-03-23")[1]
        ?.replaceAll("in 5 min", "")
        .match(/ \d+(?= )/g) ?? [];
    expect(cells.length).toBe(all - 1);
    await page.keyboard.press("Control+z");
    expect(await textOf(page)).toBe(before);
  });
});

describe("the week", () => {
  it("says in the line of a second try on how many days it is better, and what it would take", async () => {
    await openDocument(page, served.url, "week.rota");
    await expect
      .poll(() => answerBeside(page, "Two Ladders   again"), { timeout: 60_000 })
      .toMatch(/betters the first on \d+ % of days, \d+ on the middle one; on half of them it would with \d+ reps? more in the plan/);
  });
});

describe("a plan", () => {
  it("says what to test next where a test would narrow its spread", async () => {
    await openDocument(page, served.url, "two-ladders.rota");
    await page.getByRole("button", { name: "Look what moves its score most" }).click();
    await page
      .locator("rota-matters li", { hasText: /^Test .+ once more: eight days of ten would lie within \d+ reps, not \d+\.$/ })
      .first()
      .waitFor();
  });
});
