/** The picture of a plan: walked by key, linked with the text both ways, said by a table. */
import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import type { Page } from "playwright-core";
import { describe, expect, it } from "vitest";
import { choose, openDocument, type Served, typeAfter } from "./page.js";
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

  it("is there with the counts of findings when the page is, without a key or a touch", async () => {
    await page.goto(`${served.url}#breakwater.rota`);
    await page.locator("rota-app[data-answered]").waitFor();
    await page.locator("rota-lanes .walk").waitFor();
    await page.locator("rota-documents li", { hasText: "breakwater" }).getByText(/\d/).first().waitFor();
  });

  it("stands beside answers of which no figure is cut off, the worst and its mark among them", async () => {
    const fields = page.locator(".rota-answers [data-column], .rota-heads [data-column]");
    const cut = () =>
      fields.evaluateAll((all) =>
        all.filter((one) => one.clientWidth > 0 && one.scrollWidth > one.clientWidth).map(({ textContent }) => textContent),
      );
    for (const path of ["breakwater.rota", "one-file.rota"]) {
      await openDocument(page, served.url, path);
      await page.locator("rota-lanes .walk").waitFor();
      await expect.poll(() => fields.count()).toBeGreaterThan(20);
      expect(await cut()).toEqual([]);
    }
    await typeAfter(page, "Olu 5", "\nAda + Olu 4");
    await expect.poll(() => page.locator(".rota-answers [data-column=least]").allTextContents()).toContain("10 %");
    expect(await cut()).toEqual([]);
  });

  it("has the room that it is given: drawn wider by key and by hand, under the text, over the whole screen; what was chosen is kept", async () => {
    await openDocument(page, served.url, "breakwater.rota");
    const width = () => page.locator("rota-lanes").evaluate((lanes) => lanes.clientWidth);
    const edge = page.locator("[role=separator]");
    const before = await width();
    await edge.focus();
    for (let step = 0; step < 4; step += 1) await page.keyboard.press("ArrowLeft");
    await expect.poll(width).toBeGreaterThan(before + 50);
    const box = await edge.boundingBox();
    await page.mouse.move((box?.x ?? 0) + 4, 500);
    await page.mouse.down();
    await page.mouse.move(500, 500, { steps: 4 });
    await page.mouse.up();
    const drawn = await width();
    expect(drawn).toBeGreaterThan(700);
    await page.reload();
    await page.locator("rota-lanes h2").waitFor();
    expect(Math.abs((await width()) - drawn)).toBeLessThan(10);
    await page.keyboard.press("Alt+Shift+P");
    // Beside it stand the other parts: the lanes have the rest of the whole width.
    await expect.poll(width).toBeGreaterThan(850);
    await page.keyboard.press("Alt+Shift+W");
    expect(await page.locator("aside").evaluate((aside) => [aside.clientWidth, aside.clientHeight])).toEqual([1280, 900]);
    await page.keyboard.press("Escape");
    await expect.poll(() => page.locator("aside").evaluate((aside) => aside.clientHeight < 600)).toBe(true);
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(1280);
  });

  it("is drawn closer by key, by wheel and by touch, and scrolled to what does not fit", async () => {
    await openDocument(page, served.url, "breakwater.rota");
    await page.locator("rota-lanes .walk").focus();
    const widths = () => page.locator("rota-lanes .walk").evaluate((room) => [room.scrollWidth, room.clientWidth]);
    const [drawn = 0, room = 0] = await widths();
    expect(drawn).toBe(room);
    await page.keyboard.press("+");
    await page.keyboard.press("+");
    await expect.poll(async () => ((await widths())[0] ?? 0) / room).toBeCloseTo(2.25, 1);
    await page.getByRole("button", { name: "Zoom out" }).click();
    await expect.poll(async () => ((await widths())[0] ?? 0) / room).toBeCloseTo(1.5, 1);
    await page.locator("rota-lanes .walk").hover();
    await page.keyboard.down("Control");
    await page.mouse.wheel(0, -100);
    await page.keyboard.up("Control");
    await expect.poll(async () => ((await widths())[0] ?? 0) / room).toBeCloseTo(2.25, 1);
    await page.locator("rota-lanes .walk").focus();
    await page.keyboard.press("0");
    await expect.poll(async () => (await widths())[0]).toBe(room);
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
    expect(await page.locator("rota-spread [role=img]").getAttribute("aria-label")).toMatch(
      /^Eight days of ten lie between 13:\d\d and 15:\d\d\./,
    );
    const shares = await page.locator("rota-lanes td.share").allTextContents();
    expect(shares.map((share) => Number(/\d+/.exec(share)?.[0])).reduce((sum, share) => sum + share, 0)).toBeCloseTo(100, -1);
    await page.locator("rota-lanes summary").click();
    expect(await page.locator("rota-lanes ol li").first().textContent()).toMatch(/^0:00–0:1\d Ines works: 7 sandbag squat$/);
  });

  it("says which untested recovery the score hangs on, and which test would tell", async () => {
    const path = join(served.folder, "team.rota");
    writeFileSync(
      path,
      readFileSync(path, "utf8")
        .split("\n")
        .filter((line) => !/^ *ring dip +in/.test(line))
        .join("\n"),
    );
    await openDocument(page, served.url, "two-ladders.rota");
    await expect
      .poll(() => page.locator("rota-spread").textContent())
      .toMatch(
        /Worth a test: how fast \w+ recovers at ring dip is a guess, and moves the score by \d+ reps\. A row “ring dip in 5 min” would tell\./,
      );
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
