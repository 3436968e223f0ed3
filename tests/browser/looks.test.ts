/** How the page stands at the sizes and in the colours that coaches have: nothing cut, nothing off the screen, axe clean. */
import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import type { Browser, Page } from "playwright-core";
import { describe, expect, it } from "vitest";
import { choose, openDocument, type Served, typeAfter } from "./page.js";
import { axeFindings, useBrowser } from "./use-browser.js";

let browser: Browser;
let page: Page;
let served: Served;
const errors = useBrowser((fresh) => ({ browser, page, served } = fresh), { bypassCSP: true });

/** Fields beside the text whose words do not fit, with what they hold; the last ones may run into the next line. */
function cut(): Promise<readonly string[]> {
  return page.evaluate(() =>
    [...document.querySelectorAll<HTMLElement>(".rota-answers > span:not([hidden]) > span, .rota-heads > span")]
      .filter((field) => field.scrollWidth > field.clientWidth + 1)
      .map((field) => field.textContent ?? ""),
  );
}

const wide = [
  [1280, 900],
  [1600, 1000],
] as const;
const demo = ["breakwater.rota", "tandem-tide.rota", "double-shift.rota", "two-ladders.rota", "week.rota", "team.rota", "one-file.rota"];

describe("answers", () => {
  it("are cut nowhere at 1280 and 1600 pixels", async () => {
    for (const path of demo) {
      await openDocument(page, served.url, path);
      // The days' chances come last, and are the widest.
      await page.locator("rota-lanes, rota-week").first().waitFor();
      await page.waitForTimeout(1_000);
      for (const [width, height] of wide) {
        await page.setViewportSize({ width, height });
        await expect.poll(async () => [path, width, await cut()]).toEqual([path, width, []]);
      }
    }
  });

  it("leave a table of four athletes on one line each at 1280", async () => {
    await openDocument(page, served.url, "team.rota");
    await page.locator(".cm-scroller").evaluate((scroller) => scroller.scrollTo(0, scroller.scrollHeight));
    const heights = (): Promise<readonly number[]> =>
      page.evaluate(() =>
        [...document.querySelectorAll(".cm-line")]
          .filter((line) => /(unbroken|cycle|in 5 min|hold) /.test(line.textContent ?? ""))
          .map((line) => Math.round(line.getBoundingClientRect().height)),
      );
    await expect.poll(async () => (await heights()).length).toBeGreaterThan(10);
    expect(new Set(await heights()).size).toBe(1);
  });
});

describe("the page", () => {
  it("at 1280, 1600 and 390 pixels, light and dark: nothing leaves the screen sideways, axe finds nothing", async () => {
    await openDocument(page, served.url, "breakwater.rota");
    for (const [width, height] of [
      [1280, 900],
      [1600, 1000],
      [390, 844],
    ] as const) {
      for (const colorScheme of ["light", "dark"] as const) {
        await page.setViewportSize({ width, height });
        await page.emulateMedia({ colorScheme });
        await page.waitForTimeout(300);
        expect([width, colorScheme, await page.evaluate(() => document.documentElement.scrollWidth)]).toEqual([width, colorScheme, width]);
        expect([width, colorScheme, await axeFindings(page)]).toEqual([width, colorScheme, []]);
      }
    }
  });

  it("at 200 % zoom: nothing leaves the screen sideways, axe finds nothing", async () => {
    // What a zoom of 200 % leaves of 1280 by 900.
    await page.setViewportSize({ width: 640, height: 450 });
    await openDocument(page, served.url, "breakwater.rota");
    await page.waitForTimeout(1_000);
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(640);
    expect(await axeFindings(page)).toEqual([]);
  });

  it("in forced colours: the current document alone has its bar, axe finds nothing", async () => {
    await page.emulateMedia({ forcedColors: "active" });
    await openDocument(page, served.url, "breakwater.rota");
    const bars = await page.evaluate(() =>
      [...document.querySelectorAll<HTMLElement>("rota-documents li button")].map((row) => ({
        current: row.hasAttribute("aria-current"),
        bar: getComputedStyle(row).borderLeftColor,
        ground: getComputedStyle(document.body).backgroundColor,
      })),
    );
    expect(bars.filter(({ bar, ground }) => bar !== ground).map(({ current }) => current)).toEqual([true]);
    // The colours are the system's; axe reads those of the style sheet.
    expect((await axeFindings(page)).filter((found) => !found.startsWith("color-contrast"))).toEqual([]);
  });

  it("on a phone: the menus stand in one row beside the name, and a finding shows once", async () => {
    await page.setViewportSize({ width: 390, height: 844 });
    await openDocument(page, served.url, "tandem-tide.rota");
    const tops = await page.evaluate(() =>
      [...document.querySelectorAll("rota-menu .opens")].map((button) => Math.round(button.getBoundingClientRect().top)),
    );
    expect(tops).toHaveLength(3);
    expect(new Set(tops).size).toBe(1);
    await page.locator(".cm-lintRange").first().click();
    await page.locator("rota-detail .found").waitFor();
    expect(
      await page
        .getByText(/0\.8 s a rep apart/)
        .filter({ visible: true })
        .count(),
    ).toBe(1);
  });

  it("plans side by side stand inside their pane at 390, 1280 and 1600 pixels; what would turn the order stands below", async () => {
    await openDocument(page, served.url, "tandem-tide.rota");
    await page.getByRole("button", { name: /Compare/ }).click();
    await page.locator("table.beside").waitFor();
    for (const width of [1280, 1600, 390]) {
      await page.setViewportSize({ width, height: 900 });
      if (width === 390) await page.locator(".tabs button", { hasText: "picture" }).click();
      const [table, pane] = await page.evaluate(() =>
        ["table.beside", "aside"].map((one) => document.querySelector(one)?.getBoundingClientRect().right ?? 0),
      );
      expect(table).toBeGreaterThan(100);
      expect(table).toBeLessThanOrEqual(pane ?? 0);
    }
    // What would turn the order, in words.
    await page.locator("rota-ideas h3", { hasText: /^What would have to be true for \w+ to win$/ }).waitFor();
    expect(await page.locator("rota-ideas h3 + ul li").count()).toBeGreaterThan(0);
  });

  it("word of what was done leaves by itself; what can be taken back stays", async () => {
    await page.context().grantPermissions(["clipboard-read", "clipboard-write"]);
    await page.clock.install();
    await openDocument(page, served.url, "one-file.rota");
    await choose(page, "Text", "Copy lines with answers");
    const notice = page.locator(".notice", { hasText: "copied as a table" });
    await notice.waitFor();
    await page.clock.runFor(13_000);
    await notice.waitFor({ state: "detached" });
  });

  it("prints the lanes of the plan, the caution on the first page, a line of answer to a line of text", async () => {
    await openDocument(page, served.url, "one-file.rota");
    await page.locator("rota-lanes .score").waitFor();
    await page.evaluate("dispatchEvent(new Event('beforeprint'))");
    await page.emulateMedia({ media: "print" });
    expect(await page.locator(".print figure figcaption").textContent()).toBe("Simple for Sprint");
    expect(await page.locator(".print figure svg .lane").count()).toBe(2);
    expect(await page.locator(".print h1 + p").textContent()).toContain("medical advice come first");
    expect(await page.locator(".print tr", { hasText: "Ada 5" }).textContent()).toMatch(/0:00–0:10 · 5 of 40 · least \d+ %$/);
    // A document of a few blocks is one sheet, its caution on it.
    const pdf = (await page.pdf({ format: "A4", preferCSSPageSize: true })).toString("latin1");
    expect(pdf.match(/\/Type\s*\/Page\b/g)?.length).toBe(1);
  });
});

describe("two texts of a document on a phone", () => {
  it("stand in one column, and a piece of the other is taken over where it stands", async () => {
    await page.setViewportSize({ width: 390, height: 844 });
    await openDocument(page, served.url, "one-file.rota");
    await page.context().setOffline(true);
    await typeAfter(page, "Ada 5", "1");
    const file = join(served.folder, "one-file.rota");
    writeFileSync(file, readFileSync(file, "utf8").replace("Ada 5", "Ada 7"));
    await page.context().setOffline(false);
    await page.getByRole("button", { name: "Look at both" }).click({ timeout: 60_000 });
    await page.locator(".both .cm-deletedChunk", { hasText: "Ada 7" }).waitFor();
    expect(await page.locator(".both .cm-editor").count()).toBe(1);
    // Letters, digits and the marks of prose: nothing that a phone's font may lack.
    expect(await page.locator("rota-conflict").innerText()).toMatch(/^[\p{L}\p{N}\s.,:;!?()'"“”‘’…–·+%/×=#@&_-]*$/u);
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(390);
    expect(await axeFindings(page)).toEqual([]);
    await page.getByRole("button", { name: "Take theirs here" }).click();
    await page.getByRole("button", { name: "Keep what stands here" }).click();
    await page.locator(".sheet .cm-line", { hasText: "Ada 7" }).waitFor();
    await expect.poll(() => readFileSync(file, "utf8")).toContain("Ada 7");
    // The refused save, and the server that was away.
    errors.splice(0);
  });
});

describe("what once looked wrong", () => {
  it("on a wide screen the picture has its share of it, and what is said of the home is whole", async () => {
    await page.setViewportSize({ width: 1920, height: 1000 });
    await openDocument(page, served.url, "breakwater.rota");
    await page.locator("rota-lanes .walk").waitFor();
    expect(await page.locator("main aside").evaluate((pane) => pane.clientWidth)).toBeGreaterThan(400);
    await page.setViewportSize({ width: 1280, height: 900 });
    await typeAfter(page, "plan Steady", " ");
    await expect.poll(() => page.locator(".home").evaluate((home) => home.scrollWidth - home.clientWidth)).toBeLessThanOrEqual(0);
  });

  it("an answer's origin is said once, and once for each movement of each athlete", async () => {
    await openDocument(page, served.url, "double-shift.rota");
    await page.locator(".cm-line", { hasText: "round" }).last().click();
    const rows = page.locator("rota-detail dt");
    await rows.first().waitFor();
    const said = (await page.locator("rota-detail").textContent()) ?? "";
    expect(said.split("reserve model").length - 1).toBeLessThanOrEqual(1 + (await rows.count()));
    // A pane that does not hold it all shows that it goes on.
    const pane = await page.locator("rota-detail").evaluate((detail) => {
      const box = [detail, ...detail.querySelectorAll("*")].find((one) => one.scrollHeight > one.clientHeight + 1 && one.clientHeight > 0);
      return box ? { height: box.clientHeight, shade: getComputedStyle(box).backgroundImage + getComputedStyle(box).maskImage } : null;
    });
    expect(pane).toEqual({ height: expect.any(Number), shade: expect.stringContaining("gradient") });
  });

  it("the panel that finds speaks the page's language, and axe has nothing against it", async () => {
    await openDocument(page, served.url, "one-file.rota");
    await page.locator(".cm-line", { hasText: "Ada 5" }).first().click();
    await page.keyboard.press("Control+f");
    await page.locator(".cm-search").waitFor();
    expect(await page.locator(".cm-search").textContent()).not.toMatch(/regexp/);
    expect(await axeFindings(page)).toEqual([]);
  });

  it("on a phone no two menus have one name, and no entry names a key", async () => {
    const context = await browser.newContext({ viewport: { width: 390, height: 844 }, hasTouch: true, isMobile: true });
    const phone = await context.newPage();
    await openDocument(phone, served.url, "one-file.rota");
    await phone.locator("rota-menu[label=Text] .opens").tap();
    const entries = await phone.locator("rota-menu[label=Text] li").allInnerTexts();
    expect(entries.length).toBeGreaterThan(5);
    expect(entries.filter((entry) => /Ctrl|Shift\+|Alt\+|\bF\d+\b/.test(entry))).toEqual([]);
    const names = await phone.locator("rota-menu .opens").allInnerTexts();
    expect(new Set(names).size).toBe(names.length);
    await context.close();
  });

  it("the movements of a round are told apart in the lanes, and no two labels stand on one another", async () => {
    await openDocument(page, served.url, "double-shift.rota");
    await page.locator(".cm-line", { hasText: "round" }).last().click();
    await page.locator("rota-lanes .walk").waitFor();
    const over = await page.evaluate(() => {
      const boxes = [...document.querySelectorAll("rota-lanes svg text")]
        .map((label) => label.getBoundingClientRect())
        .filter(({ width }) => width > 0);
      return boxes.flatMap((one, at) =>
        boxes
          .slice(at + 1)
          .filter((two) => one.left < two.right - 1 && two.left < one.right - 1 && one.top < two.bottom - 1 && two.top < one.bottom - 1),
      ).length;
    });
    expect(over).toBe(0);
    const fills = await page
      .locator("rota-lanes rect.work")
      .evaluateAll((pieces) => [
        ...new Set(pieces.map((piece) => `${getComputedStyle(piece).fill} ${getComputedStyle(piece).fillOpacity}`)),
      ]);
    expect(fills.length).toBeGreaterThan(1);
  });
});
