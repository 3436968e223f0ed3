/**
 * A coach's first ten minutes: from the template to a plan with one rule broken, seen, fixed, printed. By keyboard and
 * pointer, no server.
 */
import type { Page } from "playwright-core";
import { describe, expect, it } from "vitest";
import { readdirSync, rmSync } from "node:fs";
import { join } from "node:path";
import { answerBeside, openDocument, type Served, staticHost, textOf } from "./page.js";
import { axeFindings, useBrowser } from "./use-browser.js";

let page: Page;
let served: Served;
useBrowser((fresh) => ({ page, served } = fresh), { bypassCSP: true });

describe("the first ten minutes", () => {
  it("lead from a template to a printed plan", async () => {
    const host = await staticHost();
    await openDocument(page, host.url, "one-file.rota");

    await page.locator("rota-documents .begin").click();
    await page.locator("dialog[open] input[name=value]").fill("saturday");
    await page.locator("dialog[open] .choice", { hasText: "one file" }).click();
    await page.locator("dialog[open] button[type=submit]").click();
    await page.locator(".text h2", { hasText: "saturday.rota" }).waitFor();
    await expect.poll(() => answerBeside(page, "plan Short Sets")).toMatch(/^\d:\d\d on (paper|the middle day) · /);
    const first = await answerBeside(page, "plan Short Sets");
    expect(await page.locator("rota-documents [aria-current] .count").count()).toBe(0);

    // Eight against five is two thirds of the reps for Wren: more than the event's rule allows.
    await page.locator(".cm-line", { hasText: "Wren 5" }).click();
    await page.keyboard.press("End");
    await page.keyboard.press("Backspace");
    await page.keyboard.type("8");
    await page.locator(".cm-lintRange").first().waitFor();
    // Between the two keys the line has no number, which is an error of its own.
    await expect.poll(() => page.locator("rota-documents [aria-current] .count").textContent()).toContain("1 error");
    await page.locator(".cm-line", { hasText: "# One file" }).click();
    await page.keyboard.press("F8");
    await page.locator("rota-detail .found", { hasText: "Wren does 67 % of jumps" }).waitFor();

    await page.keyboard.press("Alt+Enter");
    await page.locator(".cm-lintRange").first().waitFor({ state: "detached" });
    expect(await textOf(page)).toContain("    Wren 7\n    Odo 6");
    await expect.poll(() => answerBeside(page, "plan Short Sets")).not.toBe(first);
    await expect.poll(() => page.locator("rota-documents [aria-current] .count").count()).toBe(0);

    await page.evaluate("dispatchEvent(new Event('beforeprint'))");
    await page.emulateMedia({ media: "print" });
    expect(await page.locator(".print").textContent()).toContain("plan Short Sets for My Event");
    expect((await page.pdf()).length).toBeGreaterThan(5_000);
    await page.emulateMedia({ media: "screen" });

    await page.reload();
    await page.waitForSelector("rota-app[data-answered]");
    expect(await page.locator(".text h2").textContent()).toBe("saturday.rota");
    await host.close();
  });
});

/** Everything that stands in the notebook is taken away: a coach's folder before the first word. */
function emptied(): void {
  for (const name of readdirSync(served.folder)) rmSync(join(served.folder, name), { recursive: true });
}

describe("an empty notebook", () => {
  /** Keys pressed besides those that type text. */
  let pressed = 0;
  const press = async (key: string, times = 1): Promise<void> => {
    for (let nth = 0; nth < times; nth += 1) {
      pressed += 1;
      await page.keyboard.press(key);
    }
  };
  const type = (text: string): Promise<void> => page.keyboard.type(text);
  const offers = (words: string): Promise<void> => page.locator("rota-first h3", { hasText: words }).waitFor();
  /** Tab until the control with these words has the focus. */
  const tabTo = async (words: string): Promise<void> => {
    for (let nth = 0; nth < 20; nth += 1) {
      if (await page.evaluate((wanted) => document.activeElement?.textContent?.trim() === wanted, words)) return;
      await press("Tab");
    }
    throw new Error(`no way to ${words}`);
  };

  it("leads by keyboard alone to a suggested plan for one's own event, in at most 60 keys besides the text typed", async () => {
    emptied();
    pressed = 0;
    await page.goto(served.url);
    await offers("Begin with your team");
    expect(await axeFindings(page)).toEqual([]);
    await press("Alt+Shift+N");
    await press("Enter");
    await type("Pine");
    await press("Tab");
    await type("Ada, Eva");
    await press("Tab");
    await type("Olu, Ben");
    await press("Enter");
    await offers("Now the event");
    expect(await textOf(page)).toContain("team Pine\n  Ada  woman\n  Eva  woman\n  Olu  man\n  Ben  man");
    await press("Alt+Shift+N");
    await tabTo("two move, one holds");
    await press("Enter");
    // The name stands selected: it is typed over; then the count of its stage.
    await type("Harbour");
    await press("ArrowDown", 5);
    await press("Home");
    await press("ArrowRight", 14);
    await press("Delete", 3);
    await type("100");
    await offers("What can they do?");
    expect(await textOf(page)).toContain("event Harbour\n");
    expect(await textOf(page)).toContain("  stage squats  100 sandbag squat");
    await press("Alt+Shift+N");
    await tabTo("A table to fill in");
    await press("Enter");
    await type("24");
    // Enough is there: a plan is looked for by itself.
    await offers("A plan for Harbour is found");
    await press("Alt+Shift+N");
    await tabTo("Put it into the document");
    await press("Enter");
    await expect.poll(() => textOf(page)).toMatch(/\nplan .+ for Harbour\n/);
    await expect.poll(() => answerBeside(page, "for Harbour")).toMatch(/^\d+:\d\d on (paper|the middle day) · /);
    expect(pressed).toBeLessThanOrEqual(60);
    await page.locator("rota-first").waitFor({ state: "detached" });
    // What is only assumed looks it.
    await page.locator(".rota-answers .rota-assumed").first().waitFor();
    await expect.poll(() => readdirSync(served.folder)).toEqual(["my-plan.rota"]);
  });

  it("offers at 1280 and 390 pixels, light and dark, what axe has nothing against and what fits", async () => {
    emptied();
    await page.goto(served.url);
    await offers("Begin with your team");
    await page.getByRole("button", { name: "A team…" }).click();
    for (const width of [1280, 390]) {
      for (const colorScheme of ["light", "dark"] as const) {
        await page.setViewportSize({ width, height: 800 });
        await page.emulateMedia({ colorScheme });
        expect([width, colorScheme, await axeFindings(page)]).toEqual([width, colorScheme, []]);
        expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(width);
      }
    }
  });

  it("shows the demo, and takes it back", async () => {
    emptied();
    await page.goto(served.url);
    await page.getByRole("button", { name: "Look at the demo" }).click();
    await page.locator("rota-documents button", { hasText: "breakwater" }).click();
    await page.locator("rota-lanes h2", { hasText: "Steady for Breakwater" }).waitFor();
    await page.locator("rota-first").waitFor({ state: "detached" });
    await page.getByRole("button", { name: "Take it back" }).click();
    await offers("Begin with your team");
  });

  it("without a test every answer is there, and says that it is assumed", async () => {
    emptied();
    await page.goto(served.url);
    await page.locator(".cm-content").click();
    await type("team Pine\nAda woman\nEva woman\n");
    await press("Shift+Tab");
    await type("event Tide\ncap 6 min\nworking at most 1\nstage 40 box jump\n");
    await offers("What can they do?");
    await page.getByRole("button", { name: "Later: assume all of it" }).click();
    await offers("A plan for Tide is found");
    await page.locator("rota-first button", { hasText: "Put it into the document" }).click();
    await expect.poll(() => answerBeside(page, "for Tide")).toMatch(/^\d+:\d\d on /);
    await page.locator(".rota-answers .rota-assumed").first().waitFor();
    await page.locator(".cm-line", { hasText: "Ada" }).last().click();
    await expect.poll(() => page.locator("rota-detail").textContent()).toMatch(/assumed/i);
  });
});
