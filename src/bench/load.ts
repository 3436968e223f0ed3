import { mkdtempSync, readFileSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { gzipSync } from "node:zlib";
import type { Browser } from "playwright-core";
import { Folder } from "../server/folder.js";
import { serve } from "../server/serve.js";
import { documentOf } from "./documents.js";
import { quantile, type BenchRow } from "./measure.js";

const rounds = 7;
const mostKb = 300;

/** What is loaded before the page answers, and how long the first screen's answers take against the same text in the bare editor. */
export async function loadRows(browser: Browser, root: string, barePage: string): Promise<readonly BenchRow[]> {
  const folder = mkdtempSync(join(tmpdir(), "rotaline-bench-"));
  writeFileSync(join(folder, "plan.rota"), documentOf(1_000));
  const own = await Folder.at(folder);
  const [full, bare] = [await serve(own, join(root, "dist/page"), 0), await serve(own, barePage, 0)];
  const files = new Set<string>();
  const shown = async (url: string, ready: string, count: number): Promise<number> => {
    const page = await browser.newPage({ viewport: { width: 1280, height: 900 } });
    let answered = false;
    page.on("request", (request) => void (answered || files.add(request.url())));
    const start = performance.now();
    await page.goto(url, { waitUntil: "commit" });
    await page.waitForFunction(([selector, least]) => document.querySelectorAll(selector).length >= least, [ready, count] as const);
    const ms = performance.now() - start;
    answered = true;
    await page.close();
    return ms;
  };
  const [text, beside] = [".cm-line", ".rota-answers > span:not([hidden])"];
  const counted = await browser.newPage({ viewport: { width: 1280, height: 900 } });
  await counted.goto(`${full.url}#plan.rota`);
  await counted.waitForSelector("rota-app[data-answered]");
  const [lines, answers] = [await counted.locator(text).count(), await counted.locator(beside).count()];
  await counted.close();
  const [answersMs, bareMs]: [number[], number[]] = [[], []];
  for (let round = 0; round < rounds; round += 1) {
    bareMs.push(await shown(`${bare.url}bare.html?lines=1000`, text, lines));
    answersMs.push(await shown(`${full.url}#plan.rota`, beside, answers));
  }
  full.server.close();
  bare.server.close();
  const names = [...files].filter((url) => url.startsWith(full.url) && /\.(js|css)$/.test(url)).map((url) => url.slice(full.url.length));
  const kb = names.reduce((sum, name) => sum + gzipSync(readFileSync(join(root, "dist/page", name)), { level: 9 }).length, 0) / 1_000;
  return [
    { name: "kB compressed before the page answers", ms: kb, floorMs: mostKb, floor: `budget of ${mostKb} kB`, most: 1 },
    { name: "first screen with answers, 1,000 lines", ms: quantile(answersMs), floorMs: quantile(bareMs), floor: "bare editor", most: 1.5 },
  ];
}
