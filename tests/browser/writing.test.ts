/** Help while writing: what is offered, what the pointer is told, folding, order, answers chosen, paper. */
import type { Page } from "playwright-core";
import { describe, expect, it } from "vitest";
import { answerBeside, choose, openDocument, type Served, textOf, typeAfter } from "./page.js";
import { axeFindings, useBrowser } from "./use-browser.js";

let served: Served;
let page: Page;
useBrowser((fresh) => ({ served, page } = fresh), { bypassCSP: true });

const offered = () => page.locator(".cm-tooltip-autocomplete li");

describe("while typing", () => {
  it("names are offered where they can stand, and taken by key", async () => {
    await openDocument(page, served.url, "breakwater.rota");
    await typeAfter(page, "rule hold turn", "\npair C  Ma");
    await offered().first().waitFor();
    expect(await offered().allTextContents()).toEqual(["Martaathlete"]);
    await page.waitForTimeout(150);
    await page.keyboard.press("Enter");
    await page.keyboard.type(" + Ti");
    await page.keyboard.press("Escape");
    expect(await textOf(page)).toContain("  pair C  Marta + Ti");
  });

  it("a block is begun from a snippet whose places are stepped through", async () => {
    await openDocument(page, served.url, "one-file.rota");
    await page.locator(".cm-content").click();
    await page.keyboard.press("Control+End");
    await page.keyboard.type("plan");
    await offered().first().waitFor();
    await page.waitForTimeout(150);
    await page.keyboard.press("Enter");
    await page.keyboard.type("Quick");
    await page.keyboard.press("Tab");
    await page.keyboard.type("Sprint");
    expect(await textOf(page)).toContain("plan Quick for Sprint\n  repeat\n    Ada 5");
  });

  it("words and names are explained where the pointer rests", async () => {
    await openDocument(page, served.url, "breakwater.rota");
    await page.locator(".cm-line", { hasText: "stage squats" }).first().locator("span", { hasText: "squats" }).hover();
    await page.locator(".rota-tip", { hasText: /stage squats.*events\.rota, line \d+/ }).waitFor();
    await page.locator(".cm-line", { hasText: "repeat" }).first().locator("span", { hasText: "repeat" }).hover();
    await page.locator(".rota-tip", { hasText: "Again and again until the stage's target" }).waitFor();
  });

  it("an answer that is pointed at says its formula, what went in, and whose model it is", async () => {
    await openDocument(page, served.url, "team.rota");
    await page.locator(".cm-scroller").evaluate((scroller) => scroller.scrollTo(0, scroller.scrollHeight));
    await page.locator(".rota-answers > span", { hasText: "load" }).first().hover();
    await page.locator("rota-detail", { hasText: /three-compartment model \(Xia & Frey Law 2008\)/ }).waitFor();
    // What the model made of a test is computed; the test stands behind it.
    expect(await page.locator("rota-detail dd").first().textContent()).toMatch(/computed, .+, from the test/);
  });

  it("the document is put in order, in one step", async () => {
    await openDocument(page, served.url, "one-file.rota");
    await typeAfter(page, "    Ada 5", "   each");
    const before = await textOf(page);
    await page.keyboard.press("Shift+Alt+F");
    // A locator by text would not tell three blanks from one.
    await expect.poll(() => textOf(page)).toContain("\n    Ada 5 each\n");
    await page.keyboard.press("Control+z");
    expect(await textOf(page)).toBe(before);
  });

  it("blocks fold and unfold, and findings are stepped through", async () => {
    await openDocument(page, served.url, "breakwater.rota");
    await choose(page, "Text", "Fold all");
    await page.locator(".cm-foldPlaceholder").first().waitFor();
    expect(await page.locator(".cm-line", { hasText: "stage logs" }).count()).toBe(0);
    await choose(page, "Text", "Unfold all");
    await page.locator(".cm-line", { hasText: "stage logs" }).first().waitFor();
    await page.locator(".cm-line", { hasText: "# Breakwater" }).click();
    await page.locator(".cm-lintRange").first().waitFor();
    await page.keyboard.press("F8");
    expect(await page.locator(".cm-activeLine").textContent()).toContain("plan Bold for Breakwater");
    await page.keyboard.press("F8");
    expect(await page.locator(".cm-activeLine").textContent()).toContain("stage squats");
  });
});

describe("answers", () => {
  it.each([
    ["1280 px", 1280, 16],
    ["a narrow window", 760, 16],
    ["large type", 1280, 26],
  ])("stand at their lines, clear of the text: %s", async (_name, width, size) => {
    await page.setViewportSize({ width, height: 900 });
    const devtools = await page.context().newCDPSession(page);
    await devtools.send("Page.setFontSizes", { fontSizes: { standard: size, fixed: size } });
    await openDocument(page, served.url, "breakwater.rota");
    expect(await page.evaluate(() => getComputedStyle(document.documentElement).fontSize)).toBe(`${size}px`);
    await typeAfter(
      page,
      "plan Steady",
      " // a remark that is long enough to be wrapped at any of these widths, since it goes on and on and on",
    );
    await page.waitForTimeout(600);
    const places = await page.evaluate(() => {
      const lines = [...document.querySelectorAll(".cm-line")].map((line) => ({
        top: line.getBoundingClientRect().top,
        right: Math.max(
          0,
          ...[...line.childNodes].map((node) => {
            const range = document.createRange();
            range.selectNode(node);
            return range.getBoundingClientRect().right;
          }),
        ),
      }));
      return [...document.querySelectorAll<HTMLElement>(".rota-answers > span:not([hidden])")].map((answer) => {
        const { top, left } = answer.getBoundingClientRect();
        const line = lines.find((one) => Math.abs(one.top - top) < 3);
        return { aligned: line !== undefined, clear: line !== undefined && line.right <= left };
      });
    });
    expect(places.length).toBeGreaterThan(8);
    expect(places.filter(({ aligned, clear }) => !aligned || !clear)).toEqual([]);
  });

  it("at 200 % zoom stand under their lines, and nothing scrolls sideways", async () => {
    await page.setViewportSize({ width: 640, height: 450 });
    await openDocument(page, served.url, "one-file.rota");
    await page.locator(".cm-line[data-answer^='1:41']").waitFor();
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(640);
  });

  it("are chosen by what they are about, and the choice is kept", async () => {
    await openDocument(page, served.url, "breakwater.rota");
    await expect.poll(() => answerBeside(page, "A 29 % unbroken each")).toMatch(/^0:00/);
    await choose(page, "Answers", "turns");
    expect(await page.locator(".rota-answers > span[data-about=turns]").first().isVisible()).toBe(false);
    expect(await page.locator(".rota-answers > span[data-about=plans]").first().isVisible()).toBe(true);
    await page.reload();
    await page.locator(".rota-answers > span[data-about=plans]").first().waitFor();
    expect(await page.locator(".rota-answers > span[data-about=turns]").first().isVisible()).toBe(false);
  });

  it("stand in columns under heads that stay in sight; a column can be put away, and what is left fills its place", async () => {
    await openDocument(page, served.url, "breakwater.rota");
    await expect.poll(() => answerBeside(page, "A 29 % unbroken each")).toMatch(/^0:00/);
    const rights = (column: string): Promise<readonly number[]> =>
      page
        .locator(`.rota-answers > span:not([hidden]) [data-column=${column}]`)
        .evaluateAll((all) => [...new Set(all.map((one) => Math.round(one.getBoundingClientRect().right)))]);
    for (const column of ["from", "to", "passes"]) {
      const head = await page
        .locator(`.rota-heads [data-column=${column}]`)
        .evaluate((one) => Math.round(one.getBoundingClientRect().right));
      // To the rounding of a pixel.
      expect((await rights(column)).filter((right) => Math.abs(right - head) > 1)).toEqual([]);
    }
    const top = await page.locator(".rota-heads").evaluate((one) => one.getBoundingClientRect().top);
    await page.locator(".cm-scroller").evaluate((scroller) => scroller.scrollTo(0, 300));
    expect(await page.locator(".rota-heads").evaluate((one) => one.getBoundingClientRect().top)).toBe(top);
    const before = await page.locator(".rota-heads [data-column=to]").boundingBox();
    await choose(page, "Answers", "column: least");
    expect(await page.locator(".rota-heads [data-column=least]").isVisible()).toBe(false);
    expect((await page.locator(".rota-heads [data-column=to]").boundingBox())?.width).toBeGreaterThan(before?.width ?? 0);
  });

  it("are copied with their lines as a table that a spreadsheet takes", async () => {
    await page.context().grantPermissions(["clipboard-read", "clipboard-write"]);
    await openDocument(page, served.url, "one-file.rota");
    await expect.poll(() => answerBeside(page, "plan Simple")).toMatch(/^1:4\d on the middle day/);
    await choose(page, "Text", "Copy lines with answers");
    await page.locator(".notice", { hasText: "lines copied as a table" }).waitFor();
    const rows = (await page.evaluate(() => navigator.clipboard.readText())).split("\n").map((row) => row.split("\t"));
    expect(rows.find(([, head]) => head === "from")).toEqual(["", "from", "to", "done", "left", "least", "chance", "passes"]);
    const turn = rows.find(([text]) => text === "    Ada 5") ?? [];
    expect(turn.slice(0, 4)).toEqual(["    Ada 5", "0:00", "0:10", "5 of 40"]);
    expect(turn.slice(-1)).toEqual(["×4"]);
  });

  it("are printed with the whole document, also what was not on the screen", async () => {
    await page.setViewportSize({ width: 1280, height: 500 });
    await openDocument(page, served.url, "breakwater.rota");
    await expect.poll(() => answerBeside(page, "plan Steady")).toMatch(/8 days of 10/);
    await page.evaluate("dispatchEvent(new Event('beforeprint'))");
    await page.emulateMedia({ media: "print" });
    const rows = await page
      .locator(".print tr")
      .evaluateAll((all) => all.map((row) => [...row.querySelectorAll("td")].map((cell) => cell.textContent)));
    expect(rows.find(([text]) => text === "plan Steady for Breakwater")?.[1]).toMatch(/^13:\d\d on the middle day · /);
    expect(rows.find(([text]) => text?.startsWith("compare Steady"))?.[1]).toMatch(/Steady/);
    expect(await page.locator(".print").isVisible()).toBe(true);
    expect(await page.locator("main").isVisible()).toBe(false);
    expect((await page.pdf()).subarray(0, 4).toString()).toBe("%PDF");
  });
});

describe("accessibility of what opens", () => {
  it.each([
    ["light", 1280],
    ["dark", 390],
  ] as const)("axe finds nothing in an open menu, a dialog, a search, with offers: %s at %i px", async (colorScheme, width) => {
    await page.emulateMedia({ colorScheme });
    await page.setViewportSize({ width, height: 900 });
    await openDocument(page, served.url, "breakwater.rota");
    await page.locator("rota-menu[label=Answers] .opens").click();
    expect(await axeFindings(page)).toEqual([]);
    await page.keyboard.press("Escape");
    await typeAfter(page, "rule hold turn", "\npair C  Ma");
    await offered().first().waitFor();
    expect(await axeFindings(page)).toEqual([]);
    await page.keyboard.press("Escape");
    await choose(page, "Document", "New");
    expect(await axeFindings(page)).toEqual([]);
    await page.keyboard.press("Escape");
    if (width < 720) await page.locator(".tabs button", { hasText: "documents" }).click();
    await page.locator(".search input").fill("hold");
    await page.locator(".results mark").first().waitFor();
    expect(await axeFindings(page)).toEqual([]);
  });
});

describe("indentation by itself", () => {
  /** What stands after some lines were typed into an empty document, one after another. */
  const typed = async (lines: readonly string[]): Promise<string> => {
    await openDocument(page, served.url, "one-file.rota");
    await page.locator(".cm-content").click();
    await page.keyboard.press("Control+a");
    for (const [at, line] of lines.entries()) await page.keyboard.type(at === 0 ? line : `\n${line}`);
    return textOf(page);
  };

  it("puts lines under what opens a block, and nothing under a published stage", async () => {
    expect(await typed(["event Tide", "stage wall throw", "stage 20 box jump", "round of 3", "5 swing"])).toBe(
      "event Tide\n  stage wall throw\n  stage 20 box jump\n  round of 3\n    5 swing",
    );
    expect(await typed(["plan P for Tide", "stage jumps", "repeat", "Ada 5"])).toBe(
      "plan P for Tide\n  stage jumps\n    repeat\n      Ada 5",
    );
  });

  it("takes a line that begins a block to the margin, with or without an empty line before it", async () => {
    expect(await typed(["plan P for Tide", "repeat", "Ada 5", "plan Q for Tide", "Ada 5", "compare P, Q"])).toBe(
      "plan P for Tide\n  repeat\n    Ada 5\nplan Q for Tide\n  Ada 5\ncompare P, Q",
    );
    expect(await typed(["team Pine", "Ada woman", "", "event Tide", "cap 5 min", "", "let x = 3"])).toBe(
      "team Pine\n  Ada woman\n\nevent Tide\n  cap 5 min\n\nlet x = 3",
    );
  });

  it("leaves a table's rows under their head, whatever they begin with", async () => {
    expect(await typed(["ability Ada Olu", "log hold 80 90 s", "event row unbroken 5 6", "box jump unbroken 20 24"])).toBe(
      "ability Ada Olu\n  log hold 80 90 s\n  event row unbroken 5 6\n  box jump unbroken 20 24",
    );
  });
});
