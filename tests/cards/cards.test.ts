/** Cards: plan ⇒ card as text; what must be remembered; a page that prints on A6 and A4, and cannot be made to do anything. */
import { readFileSync } from "node:fs";
import { getDocument } from "pdfjs-dist/legacy/build/pdf.mjs";
import type { Browser } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { thingsToRemember } from "../../src/3-plan/remember.js";
import { pierNine } from "../../src/5-findings/examples.js";
import { cardPage } from "../../src/7-view/card-page.js";
import { cardText, wallText } from "../../src/7-view/card-text.js";
import { mostInCode } from "../../src/7-view/code.js";
import { simplerWords } from "../../src/7-view/simpler.js";
import { cardsOf, wallOf } from "../../src/7-view/cards.js";
import { startBrowser } from "../browser/page.js";
import { compile } from "../../src/compile.js";
import { compileText, lighthouse, timelineOf } from "../notebook.js";

function planIn(compiled: ReturnType<typeof compileText>, name: string) {
  const found = [...compiled.documents.values()]
    .flatMap(({ blocks }) =>
      blocks.flatMap(({ plan }) => (plan?.resolved.plan && plan.timeline ? [{ plan: plan.resolved.plan, timeline: plan.timeline }] : [])),
    )
    .find(({ plan }) => plan.name === name);
  if (!found) throw new Error(`no plan ${name}`);
  return found;
}

const cases = readFileSync(new URL("cases.txt", import.meta.url), "utf8")
  .split(/^=== /m)
  .slice(1);

describe("cards", () => {
  it("say what the plan says, in each athlete's own words", async () => {
    const said = cases.map((text) => {
      const [head = "", plan = ""] = text.split("==\n");
      const [title = "", ...event] = head.trimEnd().split("\n");
      const { plan: spec, timeline } = planIn(
        compileText(`${pierNine}event Sprint\n${event.map((line) => `  ${line}\n`).join("")}${plan}`),
        "P",
      );
      return `## ${title}\n\n\`\`\`\n${cardsOf(spec, timeline)
        .map((card) => cardText(card))
        .join("\n")}\n${wallText(wallOf(spec, timeline))}\`\`\`\n`;
    });
    await expect(said.join("\n")).toMatchFileSnapshot("cases.cards.md");
  });

  it("count what must be remembered: sizes, a broken set, a hold, a rest with a number, words; what comes again once", () => {
    const things = (lines: string): number =>
      thingsToRemember(
        planIn(
          compileText(`${pierNine}event Sprint\n  cap 20 min\n  stage 60 box jump while 1 hold stone\nplan P for Sprint\n${lines}`),
          "P",
        ).plan,
        "Ada",
      );
    expect(things("  repeat\n    Ada 5 while Olu hold\n    Olu 5 while Ada hold\n")).toBe(2);
    expect(things("  repeat\n    Ada 5 while Olu hold\n    Ada 5 while Olu hold\n")).toBe(1);
    expect(things("  repeat\n    Ada 7-6-5 while Olu hold\n    rest 10 s\n")).toBe(4);
    expect(
      things("  repeat\n    Ada 6 as 4+2 while Olu hold\n      cue slow\n    Olu 3 while Ada hold\n      cue not hers, but she holds\n"),
    ).toBe(5);
  });

  it("are spelt out turn by turn when asked: each passage with its own reps and time", () => {
    const { plan, timeline } = planIn(
      compileText(
        `${pierNine}assume set-up 0 s\nevent Sprint\n  cap 5 min\n  handover 3 s\n  stage 22 box jump while 1 hold stone\nplan P for Sprint\n  repeat\n    Ada 6-5 while Olu hold\n    Olu 6-5 while Ada hold\n`,
      ),
      "P",
    );
    const [ada] = cardsOf(plan, timeline, true);
    const [stage] = ada?.parts ?? [];
    // 6 reps of 2 s, 3 s to change: 0–12, 15–27, 30–40, 43–53.
    expect(stage?.kind === "stage" && stage.parts.map((part) => ("what" in part ? `${part.when} ${part.what}` : ""))).toEqual([
      "0:00–0:12, to 6 6 box jumps; Olu holds",
      "0:15–0:27 hold the stone while Olu works, about 12 s",
      "0:30–0:40, to 17 5 box jumps; Olu holds",
      "0:43–0:53 hold the stone while Olu works, about 12 s",
    ]);
  });

  it("of a plan with too much to remember name the nearest simpler one and what it costs; of a short one say nothing", () => {
    const long = compileText(
      `${pierNine}event Sprint\n  cap 20 min\n  stage 90 box jump\nplan P for Sprint\n${[12, 11, 10, 9, 8, 7, 6, 5, 4, 3, 2].map((reps) => `  Ada ${reps}\n  Olu ${reps}\n`).join("")}`,
    );
    const words = simplerWords(planIn(long, "P").plan, long.kept.abilities, long.kept.world);
    expect(words).toMatch(/^Simpler, with \d things to remember at most: .*; \d+:\d\d on the middle day, \d+ s (better|worse)\.$/);
    const short = compileText(
      `${pierNine}event Sprint\n  cap 5 min\n  stage 20 box jump\nplan P for Sprint\n  repeat\n    Ada 5\n    Olu 5\n`,
    );
    expect(simplerWords(planIn(short, "P").plan, short.kept.abilities, short.kept.world)).toBeNull();
  });

  it("have a page with a code for the wall where they are told of a link that a code can hold", () => {
    const { plan, timeline } = planIn(
      compileText(`${pierNine}event Sprint\n  cap 5 min\n  stage 20 box jump\nplan P for Sprint\n  repeat\n    Ada 5\n    Olu 5\n`),
      "P",
    );
    const page = (link: string): string => cardPage(cardsOf(plan, timeline), wallOf(plan, timeline), link);
    expect(page("https://plans.example/#parcel=1.abc")).toMatch(/<section class="wall code">.*<svg/s);
    for (const link of ["", `https://plans.example/#parcel=1.${"a".repeat(mostInCode)}`]) expect(page(link)).not.toContain("<svg");
  });

  it("words change no time and no finding", () => {
    const bare = `${pierNine}event Sprint\n  cap 5 min\n  stage 20 box jump\nplan P for Sprint\n  repeat\n    Ada 5\n    Olu 5\n`;
    const cued = bare
      .replace("    Ada 5\n", "    Ada 5\n      cue land soft\n")
      .replace("plan P for Sprint\n", "plan P for Sprint\n  cue from 1:00 now\n");
    expect(timelineOf(compileText(cued))).toEqual(timelineOf(compileText(bare)));
    const before = compileText(bare);
    before.settle();
    const after = compile([{ path: "test.rota", text: cued }], before);
    expect(after.settle()).toBe(0);
  });
});

describe("the page of cards, in a real browser", () => {
  let browser: Browser;
  beforeAll(async () => {
    browser = await startBrowser();
  });
  afterAll(() => browser.close());

  it("prints the demo's longest plan on one A6 page an athlete and one A4 page for the wall; every turn is on them", async () => {
    const { plan, timeline } = planIn(compile(lighthouse), "Steady");
    const page = await browser.newPage();
    await page.setContent(cardPage(cardsOf(plan, timeline), wallOf(plan, timeline)));
    const pdf = await getDocument({ data: new Uint8Array(await page.pdf({ preferCSSPageSize: true })) }).promise;
    expect(pdf.numPages).toBe(5);
    const texts = await Promise.all(
      Array.from({ length: 5 }, async (_, at) => {
        const one = await pdf.getPage(at + 1);
        const [, , width = 0, height = 0] = one.view;
        const { items } = await one.getTextContent();
        return {
          width: Math.round((width / 72) * 25.4),
          height: Math.round((height / 72) * 25.4),
          text: items.map((item) => ("str" in item ? item.str : "")).join(" "),
        };
      }),
    );
    expect(texts.map(({ width, height }) => `${width}×${height}`)).toEqual(["105×148", "105×148", "105×148", "105×148", "210×297"]);
    ["Ines", "Marta", "Bram", "Tariq"].forEach((name, at) =>
      expect(texts[at]?.text).toMatch(new RegExp(`${name} .*squats: 150.*logs: 60.*rows: 140.*hold that slips is let go`)),
    );
    expect(texts[0]?.text).toContain("7 sandbag squats with Marta");
    expect(texts[4]?.text).toContain("8-5-2");
    await page.close();
  });

  it("fits a phone: a card for the demo's longest plan is a screen and a half at most", async () => {
    const { plan, timeline } = planIn(compile(lighthouse), "Steady");
    const page = await browser.newPage({ viewport: { width: 390, height: 844 } });
    await page.setContent(cardPage(cardsOf(plan, timeline), wallOf(plan, timeline)));
    for (const card of await page.locator(".card").all()) expect((await card.boundingBox())?.height).toBeLessThan(1.5 * 844);
    expect(await page.evaluate(() => document.documentElement.scrollWidth <= window.innerWidth)).toBe(true);
    await page.close();
  });

  it("takes names and words as text: markup, script and direction marks do nothing", async () => {
    const hostile = `${pierNine}event "<img src=x onerror=window.hit=1>"\n  cap 5 min\n  stage 10 box jump\n  standard <script>window.hit = 1</script> \u202eback\nplan "<b>P</b>" for "<img src=x onerror=window.hit=1>"\n  cue </style><script>window.hit=1</script>\n  Ada 10\n`;
    const { plan, timeline } = planIn(compileText(hostile), "<b>P</b>");
    const page = await browser.newPage();
    await page.setContent(cardPage(cardsOf(plan, timeline), wallOf(plan, timeline)));
    expect(await page.evaluate(() => Reflect.get(window, "hit"))).toBeUndefined();
    expect(await page.locator("img, script, b").count()).toBe(0);
    expect(await page.locator(".card").first().textContent()).toContain("<script>window.hit = 1</script>");
    expect(await page.locator(".card").first().textContent()).not.toContain("\u202e");
    await page.close();
  });
});
