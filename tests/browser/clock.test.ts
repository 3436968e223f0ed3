/** The floor's clock in the real page, on the browser's virtual time: it counts, follows what is marked, and is right after a reload. */
import type { Page } from "playwright-core";
import { describe, expect, it } from "vitest";
import { choose, openDocument, type Served } from "./page.js";
import { axeFindings, useBrowser } from "./use-browser.js";

let served: Served;
let page: Page;
useBrowser((fresh) => ({ served, page } = fresh), { bypassCSP: true });

const clock = () => page.locator("rota-clock");
const elapsed = () => clock().locator("[aria-label=elapsed]").textContent();
const names = () => clock().locator(".far p").allTextContents();

/** Opens the clock for the demo's first plan on virtual time, and starts it. */
async function started(): Promise<void> {
  await page.clock.install({ time: new Date("2026-03-23T18:00:00Z") });
  await openDocument(page, served.url, "breakwater.rota");
  await page.clock.runFor(3_000);
  await page.locator("rota-lanes .score").waitFor({ state: "attached" });
  await choose(page, "Document", "Clock for this plan");
  await clock().getByRole("button", { name: "Start in 10 s" }).click();
}

describe("the clock", () => {
  it("counts down ten seconds, then says who moves, who holds, how long to the change and who is next; cautions first", async () => {
    await page.clock.install({ time: new Date("2026-03-23T18:00:00Z") });
    await openDocument(page, served.url, "breakwater.rota");
    await page.clock.runFor(3_000);
    await page.locator("rota-lanes .score").waitFor({ state: "attached" });
    await choose(page, "Document", "Clock for this plan");
    await clock().getByRole("button", { name: "Start in 10 s" }).waitFor();
    expect(await clock().textContent()).toContain("A hold that slips is let go");
    await clock().getByRole("button", { name: "Start in 10 s" }).click();
    await page.clock.runFor(4_000);
    expect(Number(await clock().locator("[role=timer]").textContent())).toBeGreaterThanOrEqual(5);
    await page.clock.runFor(9_000);
    expect(await elapsed()).toMatch(/^0:0[2-4]$/);
    expect(await names()).toEqual(["Ines", "Marta"]);
    expect(await clock().locator(".work").textContent()).toContain("Bram holds");
    expect(await clock().locator(".change").textContent()).toMatch(/1[3-5] s, then Bram \+ Tariq/);
  });

  it("a change by touch or by a presenter's key moves the rest; back takes it away", async () => {
    await started();
    await page.clock.runFor(10_000 + 22_000);
    await clock().getByRole("button", { name: "Change done" }).click();
    await page.clock.runFor(300);
    expect(await clock().locator(".late").textContent()).toMatch(/[45] s behind plan, finish about 13:2[45]/);
    await page.keyboard.press("PageUp");
    await page.clock.runFor(300);
    expect(await clock().locator(".late").textContent()).toMatch(/on plan, finish about 13:20/);
    await page.keyboard.press("PageDown");
    await page.clock.runFor(300);
    expect(await clock().locator(".late").textContent()).toContain("behind plan");
  });

  it("is right after a reload in the middle, marks and all; what was marked becomes a log in the document", async () => {
    await started();
    await page.clock.runFor(10_000 + 20_000);
    await clock().locator(".mishaps summary").click();
    await clock().getByRole("button", { name: "Bram missed" }).click();
    await page.clock.runFor(10_000);
    await page.reload();
    await page.waitForSelector("rota-app[data-answered]");
    await page.clock.runFor(1_000);
    await clock().locator(".times").waitFor();
    expect(await elapsed()).toMatch(/^0:3[0-4]$/);
    expect(await clock().locator(".late").textContent()).toContain("6 s behind plan");
    await clock().getByRole("button", { name: "Finish" }).click();
    await clock().getByRole("button", { name: "as a log" }).click();
    await page.clock.runFor(1_000);
    await expect.poll(() => page.locator(".cm-content").textContent()).toMatch(/log Steady on 2026-03-23 \d\d:\d\d {2}Bram broke at \d+ sandbag squat {2}finish 0:3\d/);
  });

  it("sounds only when asked: tones before a change", async () => {
    await page.addInitScript(() => {
      const heard: number[] = [];
      Object.assign(window, { heard, AudioContext: class {
        currentTime = 0;
        destination = {};
        createGain() { return { gain: { setValueAtTime() {}, exponentialRampToValueAtTime() {} }, connect: () => ({}) }; }
        createOscillator() { const frequency = { value: 0 }; return { frequency, connect: (next: unknown) => next, start: () => heard.push(frequency.value), stop() {} }; }
      } });
    });
    await started();
    const heard = () => page.evaluate(() => Reflect.get(window, "heard"));
    await page.clock.runFor(10_000 + 18_000);
    expect(await heard()).toEqual([]);
    await clock().locator(".corner summary").click();
    await clock().getByLabel("tones before a change").check();
    await page.clock.runFor(24_000);
    expect(await heard()).toEqual(expect.arrayContaining([440]));
  });

  it("says so where the screen cannot be kept on", async () => {
    await page.addInitScript(() => Object.defineProperty(navigator, "wakeLock", { value: { request: () => Promise.reject(new Error("refused")) } }));
    await started();
    await page.clock.runFor(12_000);
    await expect.poll(() => clock().locator(".late").textContent()).toContain("does not let the page keep its screen on");
  });

  it.each([["tablet", 1024, 768], ["tablet upright", 768, 1024], ["phone", 390, 844], ["phone on its side", 844, 390]] as const)("on a %s nothing leaves the screen sideways, and axe finds nothing", async (_, width, height) => {
    await page.setViewportSize({ width, height });
    await started();
    await page.clock.runFor(13_000);
    expect(await page.evaluate(() => document.querySelector("rota-clock dialog")?.scrollWidth ?? 0)).toBeLessThanOrEqual(width);
    const letters = await clock().locator(".far p").first().evaluate((name) => Number.parseFloat(getComputedStyle(name).fontSize));
    expect(letters).toBeGreaterThan(Math.min(width, height) * 0.15);
    const [times, far, work] = await Promise.all([".times", ".far", ".work"].map((part) => clock().locator(part).boundingBox()));
    expect((far?.y ?? 0) + 2).toBeGreaterThanOrEqual((times?.y ?? 0) + (times?.height ?? 0));
    expect((far?.y ?? 0) + (far?.height ?? 0)).toBeLessThanOrEqual((work?.y ?? 0) + 2);
    expect(await clock().locator(".mark").evaluate((mark) => mark.getBoundingClientRect().bottom <= window.innerHeight)).toBe(true);
    await page.clock.resume();
    expect(await axeFindings(page)).toEqual([]);
  });
});
