/** Nothing is lost: a tab that dies, a server that goes, a full browser, a folder taken back, others who write, two tabs. */
import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import type { Browser, Page } from "playwright-core";
import { describe, expect, it } from "vitest";
import { Folder } from "../../src/server/folder.js";
import { serve } from "../../src/server/serve.js";
import { root } from "../notebook.js";
import { choose, openDocument, type Served, staticHost, textOf, typeAfter, storedIn } from "./page.js";
import { axeFindings, useBrowser } from "./use-browser.js";

let browser: Browser;
let served: Served;
let page: Page;
const errors = useBrowser((fresh) => ({ browser, served, page } = fresh), { bypassCSP: true });

const path = (name = "one-file.rota") => join(served.folder, name);
const file = (name = "one-file.rota") => readFileSync(path(name), "utf8");
const soon = { timeout: 6_000 };

describe("a folder served", () => {
  it("has every change within a second, also while typing goes on, and after the tab dies", async () => {
    await openDocument(page, served.url, "one-file.rota");
    await typeAfter(page, "plan Simple for Sprint", " // a");
    await page.keyboard.type("bcdefghijklmnopqrstuvw", { delay: 50 });
    expect(file()).toContain("Sprint // abcdef");
    await page.keyboard.type("xyz");
    await page.waitForTimeout(1_000);
    const devtools = await page.context().newCDPSession(page);
    devtools.send("Page.crash").catch(() => undefined);
    await page.waitForEvent("crash");
    expect(file()).toContain("Sprint // abcdefghijklmnopqrstuvwxyz");
  });

  it("takes what was typed while its server was gone, once the page is loaded from a new start", async () => {
    await openDocument(page, served.url, "one-file.rota");
    const { port } = new URL(served.url);
    served.server.close();
    served.server.closeAllConnections();
    await typeAfter(page, "plan Simple for Sprint", " // meanwhile");
    await page.locator(".notice", { hasText: "The server does not answer. Your text is kept in this browser" }).waitFor();
    // What is promised is safe within a second: a page that goes sooner may take its last letters with it.
    await expect.poll(async () => JSON.stringify(await storedIn(page, "drafts"))).toContain("// meanwhile");
    // The page goes first: it would find the new server by itself, and have nothing left to bring back.
    await page.goto("about:blank");
    const again = await serve(await Folder.at(served.folder), join(root, "dist/page"), Number(port));
    await openDocument(page, served.url, "one-file.rota");
    await page.locator(".notice", { hasText: "Text of one-file.rota that was not saved has been brought back." }).waitFor();
    await expect.poll(() => file()).toContain("Sprint // meanwhile");
    await expect.poll(() => storedIn(page, "drafts")).toEqual([]);
    await page.goto("about:blank");
    again.server.close();
    errors.splice(0);
  });

  it("without its server keeps all its documents over a reload, and writes by itself when the server is there again", async () => {
    await openDocument(page, served.url, "one-file.rota");
    await page.evaluate(() => navigator.serviceWorker.ready.then(() => undefined));
    await expect.poll(() => page.evaluate(() => caches.match(location.pathname).then((kept) => kept !== undefined))).toBe(true);
    const listed = page.locator("rota-documents li");
    const count = await listed.count();
    const { port } = new URL(served.url);
    served.server.close();
    served.server.closeAllConnections();
    await page.reload();
    await page.waitForSelector("rota-app[data-answered]");
    await expect.poll(() => listed.count()).toBe(count);
    await page.locator("rota-documents button", { hasText: "team" }).first().click();
    await page.locator(".cm-line", { hasText: "team Kelp Street" }).waitFor();
    await page.locator("rota-documents button", { hasText: "one-file" }).first().click();
    await typeAfter(page, "plan Simple for Sprint", " // alone");
    await page.locator(".notice", { hasText: "The server does not answer" }).waitFor();
    const again = await serve(await Folder.at(served.folder), join(root, "dist/page"), Number(port));
    await expect.poll(() => file()).toContain(" // alone");
    await page.goto("about:blank");
    again.server.close();
    errors.splice(0);
  });

  it("shows what somebody else wrote, and keeps the cursor's document", async () => {
    await openDocument(page, served.url, "one-file.rota");
    writeFileSync(path(), file().replace("Ada 5", "Ada 8"));
    await page.locator(".cm-line", { hasText: "Ada 8" }).waitFor(soon);
    await page.locator(".notice", { hasText: "one-file.rota was changed by somebody else" }).waitFor();
    writeFileSync(path("new.rota"), "# new\n");
    await page.locator("rota-documents button", { hasText: "new" }).first().waitFor(soon);
  });

  it("sets two texts side by side and overwrites neither until one is said to stand", async () => {
    await openDocument(page, served.url, "one-file.rota");
    await typeAfter(page, "plan Simple for Sprint", " // mine");
    const theirs = file().replace("plan Simple for Sprint", "plan Simple for Sprint // theirs").replace("Olu 5", "Olu 9");
    writeFileSync(path(), theirs);
    // The hand that types is not interrupted: both stand side by side when the coach asks for it.
    await page.locator(".notice", { hasText: "Somebody else changed the same place of one-file.rota" }).waitFor(soon);
    await page.keyboard.type(" and more");
    await page.locator(".notice button", { hasText: "Look at both" }).click();
    await page.locator("rota-conflict h2", { hasText: "one-file.rota has two texts" }).waitFor(soon);
    await page.locator("rota-conflict .cm-merge-b", { hasText: "// mine and more" }).waitFor();
    await page.locator("rota-conflict .cm-merge-a", { hasText: "Olu 9" }).waitFor();
    // Both are wide enough to be read.
    for (const side of ["a", "b"])
      expect(
        await page
          .locator(`rota-conflict .cm-merge-${side} .cm-line`)
          .first()
          .evaluate((line) => line.clientWidth),
      ).toBeGreaterThan(200);
    expect(file()).toBe(theirs);
    expect(await axeFindings(page)).toEqual([]);
    await page.locator("rota-conflict button", { hasText: "Keep what stands at the right" }).click();
    await expect.poll(() => file(), soon).toContain("// mine");
    expect(file()).toContain("Olu 5");
    await page.locator(".sheet .cm-line", { hasText: "// mine" }).waitFor();
    errors.splice(0);
  });

  it("with two documents of two texts each, keeps for each what is its own", async () => {
    const clash = async (name: string, words: string, mine: string): Promise<void> => {
      await openDocument(page, served.url, name);
      await typeAfter(page, words, ` // mine of ${mine}`);
      writeFileSync(path(name), file(name).replace(words, `${words} // theirs of ${mine}`));
      await page.locator(".notice", { hasText: `the same place of ${name}` }).waitFor();
    };
    await clash("one-file.rota", "plan Simple for Sprint", "one");
    await clash("team.rota", "team Kelp Street", "two");
    for (const name of ["one-file", "team"]) {
      await page.locator("rota-documents button", { hasText: name }).first().click();
      await page.locator(".notice button", { hasText: "Look at both" }).first().click();
      await page.locator("rota-conflict h2", { hasText: `${name}.rota has two texts` }).waitFor();
      await page.locator("rota-conflict button", { hasText: "Keep what stands at the right" }).click();
    }
    await expect.poll(() => [file().includes("// mine of one"), file("team.rota").includes("// mine of two")]).toEqual([true, true]);
    expect([file().includes("of two"), file("team.rota").includes("of one")]).toEqual([false, false]);
    errors.splice(0);
  });

  it("is written by two tabs without either losing a word", async () => {
    await openDocument(page, served.url, "one-file.rota");
    const other = await page.context().newPage();
    await openDocument(other, served.url, "one-file.rota");
    await typeAfter(page, "plan Simple for Sprint", " // first");
    await other.locator(".cm-line", { hasText: "// first" }).waitFor(soon);
    await Promise.all([typeAfter(page, "Ada 5", " // second"), typeAfter(other, "Olu 5", " // third")]);
    // Either the one saw the other's words in time, or the two stand side by side in the tab that came second.
    await page.waitForTimeout(3_000);
    // Changed in different places, both stand in the folder without a question.
    await expect.poll(() => [file().includes("// second"), file().includes("// third")], soon).toEqual([true, true]);
    await other.close();
    errors.splice(0);
  });

  it("keeps the line ends that the file has", async () => {
    writeFileSync(path(), file().replace(/\n/g, "\r\n"));
    await openDocument(page, served.url, "one-file.rota");
    await typeAfter(page, "plan Simple for Sprint", " // x");
    await expect.poll(() => file(), soon).toContain("Sprint // x\r\n");
    expect(file().replace(/\r\n/g, "")).not.toContain("\n");
  });
});

describe("a notebook in the browser", () => {
  it("is begun with the demo, kept, and seen by another tab", async () => {
    const host = await staticHost();
    await openDocument(page, host.url, "one-file.rota");
    const other = await page.context().newPage();
    await openDocument(other, host.url, "one-file.rota");
    await typeAfter(page, "plan Simple for Sprint", " // kept");
    await other.locator(".cm-line", { hasText: "// kept" }).waitFor(soon);
    await page.reload();
    await page.locator(".cm-line", { hasText: "// kept" }).waitFor();
    expect(await page.locator(".home").textContent()).toContain("this browser");
    await other.close();
    await host.close();
  });

  it("opens whatever stands behind the # of its address, also where the browser keeps nothing, and says so", async () => {
    const host = await staticHost();
    await page.addInitScript(() => {
      IDBFactory.prototype.open = () => {
        throw new DOMException("refused", "SecurityError");
      };
      Object.defineProperty(window, "localStorage", {
        get: () => {
          throw new DOMException("refused", "SecurityError");
        },
      });
    });
    for (const address of ["#100%", "#%", "#nowhere.rota"]) {
      await page.goto("about:blank");
      await page.goto(host.url + address);
      await page.waitForSelector("rota-app[data-answered]");
      expect(await page.locator("rota-documents li").count()).toBeGreaterThan(5);
    }
    await page.locator(".notice", { hasText: "keeps nothing" }).waitFor();
    await host.close();
    errors.splice(0);
  });

  it("says when the browser is full, keeps the text on the page, and saves it when there is room", async () => {
    const host = await staticHost();
    await openDocument(page, host.url, "one-file.rota");
    await page.evaluate(() => {
      const { put } = IDBObjectStore.prototype;
      Object.assign(window, { makeRoom: () => (IDBObjectStore.prototype.put = put) });
      IDBObjectStore.prototype.put = () => {
        throw new DOMException("full", "QuotaExceededError");
      };
    });
    await typeAfter(page, "plan Simple for Sprint", ` // ${"full ".repeat(10)}`);
    await page.locator(".notice", { hasText: "This browser's storage is full" }).waitFor(soon);
    await page.locator(".home", { hasText: "saving" }).waitFor();
    expect(await textOf(page)).toContain("full full");
    await page.evaluate("makeRoom()");
    await page.locator(".home", { hasText: "saved" }).waitFor(soon);
    await page.reload();
    await page.locator(".cm-line", { hasText: "full full" }).waitFor();
    await host.close();
  });
});

describe("a folder of this machine", () => {
  it("is opened, written, and when the browser takes it back the text is kept and the coach is told", async () => {
    const host = await staticHost();
    const context = await browser.newContext({ viewport: { width: 1280, height: 900 } });
    const own = await context.newPage();
    // The browser's own private folder stands in for one that a person picks: the same interface.
    await own.addInitScript(
      "window.showDirectoryPicker = async () => (await navigator.storage.getDirectory()).getDirectoryHandle('plans', { create: true })",
    );
    await own.goto(host.url);
    const inFolder = (text: string | null): Promise<string> =>
      own.evaluate(async (write) => {
        const folder = await (await navigator.storage.getDirectory()).getDirectoryHandle("plans", { create: true });
        const handle = await folder.getFileHandle("a.rota", { create: true });
        if (write !== null) {
          const writable = await handle.createWritable();
          await writable.write(write);
          await writable.close();
        }
        return (await handle.getFile()).text();
      }, text);
    await inFolder("team T\n  Ada woman\n  Olu man\n");
    await own.waitForSelector("rota-app[data-answered]");
    await choose(own, "Document", "Open a folder of this machine");
    await own.locator(".home", { hasText: "folder plans" }).waitFor();
    await own.locator(".text h2", { hasText: "a.rota" }).waitFor();
    await typeAfter(own, "Ada woman", " // written");
    await expect.poll(() => inFolder(null), soon).toContain("Ada woman // written");
    await own.evaluate("FileSystemFileHandle.prototype.createWritable = () => Promise.reject(new DOMException('no', 'NotAllowedError'))");
    await typeAfter(own, "Olu man", " // refused");
    await own.locator(".notice", { hasText: "The folder cannot be written any more" }).waitFor(soon);
    expect(JSON.stringify(await storedIn(own, "drafts"))).toContain("// refused");
    await own.reload();
    await own.locator(".cm-line", { hasText: "// refused" }).waitFor();
    await expect.poll(() => inFolder(null), soon).toContain("Olu man // refused");
    await context.close();
    await host.close();
  });
});
