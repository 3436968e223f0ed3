/** A coach's first ten minutes: from the template to a plan with one rule broken, seen, fixed, printed. By keyboard and pointer, no server. */
import type { Page } from "playwright-core";
import { describe, expect, it } from "vitest";
import { answerBeside, openDocument, staticHost, textOf } from "./page.js";
import { useBrowser } from "./use-browser.js";

let page: Page;
useBrowser((fresh) => ({ page } = fresh));

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
    expect(await page.locator("rota-documents [aria-current] .count").textContent()).toContain("1 error");
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
    expect(await page.locator(".print").textContent()).toContain("plan Short Sets for First Event");
    expect((await page.pdf()).length).toBeGreaterThan(5_000);
    await page.emulateMedia({ media: "screen" });

    await page.reload();
    await page.waitForSelector("rota-app[data-answered]");
    expect(await page.locator(".text h2").textContent()).toBe("saturday.rota");
    await host.close();
  });
});
