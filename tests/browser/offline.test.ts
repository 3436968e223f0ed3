/** Without a network after the first visit; installable; a newer version is told of. */
import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import type { Page } from "playwright-core";
import { describe, expect, it } from "vitest";
import { answerBeside, openDocument, staticHost } from "./page.js";
import { useBrowser } from "./use-browser.js";

let page: Page;
const errors = useBrowser((fresh) => ({ page } = fresh));

/** The page goes before its host does: what it still fetches would be an error of the page. */
async function leave(host: Awaited<ReturnType<typeof staticHost>>): Promise<void> {
  await page.context().close();
  await host.close();
}

describe("after the first visit", () => {
  it("the page works without its host: it loads, answers and keeps what is typed", async () => {
    const host = await staticHost();
    await openDocument(page, host.url, "one-file.rota");
    await page.evaluate(() => navigator.serviceWorker.ready.then(() => undefined));
    // One visit is enough: the page that began it is kept too.
    await expect.poll(() => page.evaluate(() => caches.match(location.pathname).then((kept) => kept !== undefined))).toBe(true);
    await host.close();
    await page.context().setOffline(true);
    await page.reload();
    await page.waitForSelector("rota-app[data-answered]");
    await expect.poll(() => answerBeside(page, "plan Simple")).toMatch(/^1:41/);
    await page.locator(".cm-line", { hasText: "Ada 5" }).click();
    await page.keyboard.press("End");
    await page.keyboard.type(" // offline");
    await page.locator(".home", { hasText: "saved" }).waitFor();
    await page.reload();
    await page.locator(".cm-line", { hasText: "// offline" }).waitFor();
    errors.splice(0);
  });

  it("can be installed: a manifest with a name, a start and an icon that is there", async () => {
    const host = await staticHost();
    await page.goto(host.url, { waitUntil: "networkidle" });
    const manifest = await page.evaluate(async () => {
      const link = document.querySelector<HTMLLinkElement>("link[rel=manifest]")?.href ?? "";
      const found = await (await fetch(link)).json();
      return { ...found, icon: (await fetch(new URL(found.icons[0].src, link))).ok };
    });
    expect(manifest).toMatchObject({ name: "Rotaline", display: "standalone", icon: true });
    const devtools = await page.context().newCDPSession(page);
    const { installabilityErrors } = await devtools.send("Page.getInstallabilityErrors");
    expect(installabilityErrors.map(({ errorId }) => errorId).filter((id) => id !== "in-incognito")).toEqual([]);
    await page.evaluate(() => navigator.serviceWorker.ready.then(() => undefined));
    await leave(host);
  });

  it("a newer version is told of, and used when the coach says so", async () => {
    const host = await staticHost();
    await openDocument(page, host.url, "one-file.rota");
    await page.evaluate(() => navigator.serviceWorker.ready.then(() => undefined));
    await page.reload();
    await page.waitForSelector("rota-app[data-answered]");
    const worker = join(host.folder, "service-worker.js");
    writeFileSync(worker, `${readFileSync(worker, "utf8")}\n// newer\n`);
    await page.evaluate(() =>
      navigator.serviceWorker
        .getRegistration()
        .then((registration) => registration?.update())
        .then(() => undefined),
    );
    const told = page.locator(".notice", { hasText: "A newer Rotaline is ready" });
    await told.waitFor();
    const loaded = page.waitForEvent("load");
    await told.locator("button", { hasText: "Use it now" }).click();
    await loaded;
    await page.waitForSelector("rota-app[data-answered]");
    await leave(host);
  });
});
