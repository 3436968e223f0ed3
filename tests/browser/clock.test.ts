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
const names = () => clock().locator(".far span").allTextContents();

/** Opens the clock for one of the demo's plans on virtual time, and starts it. */
async function started(plan = "Steady", path = "breakwater.rota"): Promise<void> {
  await page.clock.install({ time: new Date("2026-03-23T18:00:00Z") });
  await openDocument(page, served.url, path);
  await page.clock.runFor(500);
  if (plan === "Bold") await page.locator(".cm-scroller").evaluate((scroller) => scroller.scrollTo(0, scroller.scrollHeight));
  await page.clock.runFor(500);
  await page.locator(".cm-line", { hasText: `plan ${plan} for` }).click();
  await page.clock.runFor(3_000);
  await page.locator("rota-lanes h2", { hasText: plan }).waitFor({ state: "attached" });
  await page.locator("rota-lanes .score").waitFor({ state: "attached" });
  await choose(page, "Document", "Clock for this plan");
  await clock().getByRole("button", { name: "Start in 10 s" }).click();
}

/** Hears what the page would say aloud. */
async function listening(): Promise<() => Promise<unknown>> {
  await page.addInitScript(() => {
    const spoken: string[] = [];
    Object.assign(window, { spoken });
    speechSynthesis.speak = (utterance) => void spoken.push(utterance.text);
  });
  return () => page.evaluate(() => Reflect.get(window, "spoken"));
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
    expect(await clock().locator(".change").textContent()).toMatch(/1[3-5] s, at 13, then Bram \+ Tariq/);
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
    // The time that passed by the page's own clock, not a second more or less.
    const sinceS = await page.evaluate(() => (Date.now() - JSON.parse(localStorage.getItem("rotaline-floor") ?? "{}").startMs) / 1000);
    const [minutes = 0, seconds = 0] = (await elapsed())?.split(":").map(Number) ?? [];
    expect(Math.abs(60 * minutes + seconds - sinceS)).toBeLessThan(2);
    await expect.poll(() => clock().locator(".late").textContent()).toMatch(/[4-6] s behind plan/);
    await clock().getByRole("button", { name: "Finish" }).click();
    await clock().getByRole("button", { name: "as a log" }).click();
    await page.clock.runFor(1_000);
    await expect
      .poll(() => page.locator(".cm-content").textContent())
      .toMatch(/log Steady on 2026-03-23 \d\d:\d\d {2}Bram broke at \d+ sandbag squat {2}finish 0:3\d/);
  });

  it("sounds only when asked: tones before a change", async () => {
    await page.addInitScript(() => {
      const heard: number[] = [];
      Object.assign(window, {
        heard,
        AudioContext: class {
          currentTime = 0;
          destination = {};
          createGain() {
            return { gain: { setValueAtTime() {}, exponentialRampToValueAtTime() {} }, connect: () => ({}) };
          }
          createOscillator() {
            const frequency = { value: 0 };
            return { frequency, connect: (next: unknown) => next, start: () => heard.push(frequency.value), stop() {} };
          }
        },
      });
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

  it("a voice says who is next, when it is asked to", async () => {
    const spoken = await listening();
    await started();
    await page.clock.runFor(10_000 + 18_000);
    expect(await spoken()).toEqual([]);
    await clock().locator(".corner summary").click();
    await clock().getByLabel("a voice that says who is next").check();
    await page.clock.runFor(26_000);
    expect(await spoken()).toEqual(expect.arrayContaining([expect.stringMatching(/^(Ines \+ Marta|Bram \+ Tariq) next$/)]));
  });

  it("the voice counts the last reps of whoever works alone", async () => {
    const spoken = await listening();
    await started("Simple", "one-file.rota");
    await page.clock.runFor(5_000);
    await clock().locator(".corner summary").click();
    await clock().getByLabel("a voice that says who is next").check();
    await page.clock.runFor(14_000);
    expect(await spoken()).toEqual(expect.arrayContaining(["3 more", "Olu next"]));
  });

  it("offers another plan for the rest where it is off by more than a handover; one touch takes it", async () => {
    await started("Bold");
    await page.clock.runFor(10_000 + 62_000);
    await clock().getByRole("button", { name: "Change done" }).click();
    await page.clock.resume();
    const offer = clock().locator(".offer button");
    await offer.waitFor();
    expect(await offer.textContent()).toMatch(/^From the next change: [AB] .* \(\d+ s sooner\)$/);
    const finish = async () => (await clock().locator(".late").textContent())?.match(/finish about (\d+:\d\d)/)?.[1] ?? "";
    const before = await finish();
    await offer.click();
    await expect.poll(finish).not.toBe(before);
    expect(await clock().locator(".late").textContent()).toContain("Taken. Tell everybody what comes.");
    await page.reload();
    await page.waitForSelector("rota-app[data-answered]");
    await clock().locator(".times").waitFor();
    expect(await names()).toHaveLength(2);
  });

  it("says so where the screen cannot be kept on", async () => {
    await page.addInitScript(() =>
      Object.defineProperty(navigator, "wakeLock", { value: { request: () => Promise.reject(new Error("refused")) } }),
    );
    await started();
    await page.clock.runFor(12_000);
    await expect.poll(() => clock().locator(".late").textContent()).toContain("does not let the page keep its screen on");
  });

  it.each([
    ["tablet", 1024, 768],
    ["tablet upright", 768, 1024],
    ["phone", 390, 844],
    ["phone on its side", 844, 390],
  ] as const)("on a %s nothing leaves the screen sideways, and axe finds nothing", async (name, width, height) => {
    await page.setViewportSize({ width, height });
    await started();
    await page.clock.runFor(13_000);
    expect(await page.evaluate(() => document.querySelector("rota-clock dialog")?.scrollWidth ?? 0)).toBeLessThanOrEqual(width);
    const letters = await clock()
      .locator(".far span")
      .first()
      .evaluate((name) => Number.parseFloat(getComputedStyle(name).fontSize));
    // Two names on a tablet's side: a capital, 0.72 of the type, is 16 minutes of arc at 8 m (see the style sheet).
    const capitalMm = 0.72 * letters * (203 / 1024);
    const minutes = (Math.atan(capitalMm / 8_000) * 180 * 60) / Math.PI;
    if (name === "tablet") expect(minutes).toBeGreaterThanOrEqual(15.9);
    else expect(letters).toBeGreaterThan(Math.min(width, height) * 0.22);
    const [times, far, work, feet] = await Promise.all(
      [".times", ".far", ".change", ".feet"].map((part) => clock().locator(part).boundingBox()),
    );
    const bottom = (box: typeof times): number => (box?.y ?? 0) + (box?.height ?? 0);
    expect((far?.y ?? 0) + 2).toBeGreaterThanOrEqual(bottom(times));
    expect(bottom(far)).toBeLessThanOrEqual((work?.y ?? 0) + 2);
    expect(bottom(feet)).toBeLessThanOrEqual(height + 1);
    // No name leaves its place.
    expect(
      await clock()
        .locator(".far")
        .evaluate((box) => {
          const place = box.getBoundingClientRect();
          return [...box.children]
            .map((one) => one.getBoundingClientRect())
            .filter(
              ({ top, bottom: end, left, right }) =>
                top < place.top - 1 || end > place.bottom + 1 || left < place.left - 1 || right > place.right + 1,
            ).length;
        }),
    ).toBe(0);
    await page.clock.resume();
    expect(await axeFindings(page)).toEqual([]);
  });
});
