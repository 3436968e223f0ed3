/** Sending round, in the real page: a link made here is opened in another profile and kept; a code is read back by another decoder. */
import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import jsqr from "jsqr";
import type { Browser, Page } from "playwright-core";
import { describe, expect, it } from "vitest";
import { mostInLink, pack } from "../../src/1-text/parcel.js";
import { choose, openDocument, serveCopy, type Served, staticHost, textOf, typeAfter } from "./page.js";
import { axeFindings, useBrowser } from "./use-browser.js";

let browser: Browser;
let served: Served;
let page: Page;
const errors = useBrowser((fresh) => ({ browser, served, page } = fresh), { bypassCSP: true });

const sheet = (of: Page) => of.locator("rota-send dialog");
const received = (of: Page) => of.locator("rota-received dialog");

async function linkOf(path: string): Promise<string> {
  await openDocument(page, served.url, path);
  await choose(page, "Document", "Send…");
  return sheet(page).locator("input").inputValue();
}

/** A page of somebody else's, with a notebook of its own in the browser. */
async function elsewhere(url: string): Promise<Page> {
  const other = await (await browser.newContext({ viewport: { width: 1280, height: 900 } })).newPage();
  await other.goto(url);
  return other;
}

describe("a link", () => {
  it("opens read-only in another profile, says what it holds, and is kept when that is said; one press takes it back", async () => {
    await openDocument(page, served.url, "one-file.rota");
    await typeAfter(page, "plan Simple for Sprint", " // sent");
    await page.locator(".home", { hasText: "saved" }).waitFor();
    const link = await linkOf("one-file.rota");
    const host = await staticHost();
    const other = await elsewhere(host.url + link.slice(link.indexOf("#")));
    await received(other).locator("h2", { hasText: "Received by a link" }).waitFor();
    expect(await received(other).textContent()).toContain("one-file.rota");
    // Answers beside it, nothing that can be typed in.
    await received(other)
      .locator("td", { hasText: /^1:41 on paper/ })
      .waitFor();
    expect(await received(other).locator("[contenteditable], textarea").count()).toBe(0);
    await received(other).getByRole("button", { name: "Keep beside mine" }).click();
    await other.locator(".notice", { hasText: "Kept: one-file-2.rota" }).waitFor();
    await expect.poll(() => textOf(other)).toContain("plan Simple for Sprint // sent");
    expect(new URL(other.url()).hash).not.toContain("parcel");
    await other.locator(".notice button", { hasText: "Take it back" }).click();
    await expect.poll(() => other.locator("rota-documents button", { hasText: "one-file-2" }).count()).toBe(0);
    await other.context().close();
    await host.close();
  });

  it("left alone changes nothing; where one's own differs both are shown", async () => {
    const link = await linkOf("one-file.rota");
    const mine = await serveOther();
    const other = await elsewhere(mine.url + link.slice(link.indexOf("#")));
    await received(other).locator("button", { hasText: "one-file.rota: yours differs" }).waitFor();
    await received(other).locator("th", { hasText: "yours" }).waitFor();
    await received(other).getByRole("button", { name: "Leave it" }).click();
    await openDocument(other, mine.url, "one-file.rota");
    expect(await textOf(other)).toContain("// mine");
    await other.context().close();
    mine.server.close();
  });

  it("as long as a link may be goes through the browser's address", async () => {
    const host = await staticHost();
    await page.addInitScript(() => Object.assign(window, { carried: location.hash.length }));
    await page.goto(`${host.url}#parcel=1.${"A".repeat(mostInLink)}`);
    expect(await page.evaluate(() => Reflect.get(window, "carried"))).toBeGreaterThan(mostInLink);
    await page.locator(".notice", { hasText: "What came by a link could not be opened." }).waitFor();
    await page.context().close();
    await host.close();
  });

  it("that holds something hostile does nothing: it is shown as text; one that cannot be opened says why", async () => {
    const host = await staticHost();
    const other = await elsewhere(`${host.url}#parcel=2.zzz`);
    await other.locator(".notice", { hasText: "newer Rotaline" }).waitFor();
    const bad = "<img src=x onerror=window.hit=1><script>window.hit=1</script>\u202e";
    const text = `team "${bad}"\n  Ada woman\nevent "${bad}"\n  cap 5 min\n  stage 10 "${"x".repeat(10_000)}"\nplan "__proto__" for "${bad}"\n  Ada 10\nlet constructor = 1\n`;
    await other.goto(`${host.url}#parcel=${pack([{ path: "bad.rota", text }])}`);
    await other.reload();
    await received(other).locator("td", { hasText: "<script>window.hit=1</script>" }).first().waitFor();
    await received(other).getByRole("button", { name: "Keep" }).click();
    await other.locator(".notice", { hasText: "Kept: bad.rota" }).waitFor();
    await expect.poll(() => textOf(other)).toContain("<img src=x");
    expect(
      await other.evaluate(() => [
        Reflect.get(window, "hit"),
        document.querySelectorAll("img, main script").length,
        Object.hasOwn(Object.prototype, "hit"),
      ]),
    ).toEqual([undefined, 0, false]);
    await other.context().close();
    await host.close();
    errors.splice(0);
  });
});

describe("a code", () => {
  it("is read back, by another's decoder, as the link", async () => {
    const link = await linkOf("one-file.rota");
    await sheet(page).locator("summary", { hasText: "As a code" }).click();
    const svg = await sheet(page).locator(".code").innerHTML();
    const { data, width, height } = await page.evaluate(async (markup) => {
      const image = new Image();
      image.src = `data:image/svg+xml,${encodeURIComponent(markup.includes("xmlns=") ? markup : markup.replace("<svg", '<svg xmlns="http://www.w3.org/2000/svg"'))}`;
      await image.decode();
      const canvas = new OffscreenCanvas(360, 360);
      const context = canvas.getContext("2d");
      if (!context) throw new Error("no canvas");
      context.fillStyle = "#fff";
      context.fillRect(0, 0, 360, 360);
      context.drawImage(image, 0, 0, 360, 360);
      const pixels = context.getImageData(0, 0, 360, 360);
      return { data: [...pixels.data], width: pixels.width, height: pixels.height };
    }, svg);
    expect(jsqr(Uint8ClampedArray.from(data), width, height)?.data).toBe(link);
  });
});

describe("a page, a file, a table", () => {
  it("a page of its own opens without a network, and Rotaline opens it again", async () => {
    await openDocument(page, served.url, "breakwater.rota");
    await choose(page, "Document", "Send…");
    const [file] = await Promise.all([page.waitForEvent("download"), sheet(page).getByRole("button", { name: "Keep the page" }).click()]);
    const kept = join(served.folder, "breakwater.html");
    await file.saveAs(kept);
    const alone = await elsewhere(`file://${kept}`);
    expect(await alone.locator("svg").count()).toBe(2);
    expect(await alone.textContent("body")).toContain("13:20 on paper");
    await alone.context().close();
    await sheet(page).getByRole("button", { name: "Close" }).click();
    const [chooser] = await Promise.all([page.waitForEvent("filechooser"), choose(page, "Document", "Open a file…")]);
    await chooser.setFiles(kept);
    await received(page).locator("button", { hasText: "breakwater.rota: the same as yours" }).waitFor();
  });

  it("a table pasted from a spreadsheet becomes an ability block in one step", async () => {
    await page.context().grantPermissions(["clipboard-read", "clipboard-write"]);
    await openDocument(page, served.url, "one-file.rota");
    await page.locator(".cm-content").click();
    await page.keyboard.press("Control+End");
    await page.evaluate(() => navigator.clipboard.writeText("\tAda\tOlu\nburpee unbroken\t20\t24\nburpee cycle\t3,1\t2,8\n"));
    const before = await textOf(page);
    await page.keyboard.press("Control+v");
    await page.locator(".notice", { hasText: "The table is an ability block now" }).waitFor();
    await expect
      .poll(() => textOf(page))
      .toMatch(/ability\s+Ada\s+Olu\n {2}burpee {2}unbroken\s+20\s+24 {2}reps\n {2}burpee {2}cycle\s+3\.1\s+2\.8 {2}s/);
    await page.locator(".cm-content").focus();
    await page.keyboard.press("Control+z");
    await expect.poll(() => textOf(page)).toBe(before);
  });

  it("a table or a page that is dropped on the text is taken in as what it is, not as its letters", async () => {
    await openDocument(page, served.url, "one-file.rota");
    const drop = (name: string, text: string) =>
      page.evaluate(
        ([file = "", words = ""]) => {
          const data = new DataTransfer();
          data.items.add(new File([words], file));
          document
            .querySelector(".cm-content")
            ?.dispatchEvent(new DragEvent("drop", { bubbles: true, cancelable: true, dataTransfer: data }));
        },
        [name, text],
      );
    await drop("tests.csv", ",Ada,Olu\nburpee unbroken,20,24\n");
    await expect.poll(() => textOf(page)).toMatch(/ability\s+Ada\s+Olu\n {2}burpee {2}unbroken\s+20\s+24 {2}reps/);
    expect(await textOf(page)).not.toContain(",Ada,Olu");
    await drop("friend.rota", "# From a friend\n");
    await received(page).locator("button", { hasText: "friend.rota: new" }).waitFor();
    expect(await textOf(page)).not.toContain("From a friend");
  });

  it("goes to the device's own share sheet where there is one: the page as a file of its name and kind", async () => {
    await page.addInitScript(() => {
      const shared: string[] = [];
      Object.assign(window, { shared });
      Object.assign(navigator, {
        canShare: () => true,
        share: async ({ files }: { files: File[] }) =>
          void shared.push(...files.map(({ name, type, size }) => `${name} ${type} ${size > 1_000}`)),
      });
    });
    await openDocument(page, served.url, "one-file.rota");
    await choose(page, "Document", "Send…");
    await sheet(page).getByRole("button", { name: "Share the page" }).click();
    expect(await page.evaluate(() => Reflect.get(window, "shared"))).toEqual(["one-file.html text/html true"]);
  });

  it("a file that holds no plan says so", async () => {
    await openDocument(page, served.url, "one-file.rota");
    writeFileSync(join(served.folder, "letter.txt"), "hello");
    const [chooser] = await Promise.all([page.waitForEvent("filechooser"), choose(page, "Document", "Open a file…")]);
    await chooser.setFiles(join(served.folder, "letter.txt"));
    await page.locator(".notice", { hasText: "letter.txt holds no plans" }).waitFor();
  });

  it.each([
    ["1280", 1280],
    ["390", 390],
  ] as const)("axe finds nothing in what is sent and received at %s", async (_, width) => {
    await page.setViewportSize({ width, height: 844 });
    const link = await linkOf("one-file.rota");
    expect(await axeFindings(page)).toEqual([]);
    await sheet(page).getByRole("button", { name: "Close" }).click();
    await page.goto(served.url + link.slice(link.indexOf("#")));
    await page.reload();
    await received(page).locator("h2").waitFor();
    expect(await axeFindings(page)).toEqual([]);
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(width);
  });
});

/** Another notebook that has a document of the same name with another text. */
async function serveOther(): Promise<Served> {
  const other = await serveCopy();
  const path = join(other.folder, "one-file.rota");
  writeFileSync(path, `${readFileSync(path, "utf8")}// mine\n`);
  return other;
}
