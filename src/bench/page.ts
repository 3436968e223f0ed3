import { mkdtempSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { type Browser, chromium, type Page } from "playwright-core";
import { build } from "vite";
import { Folder } from "../server/folder.js";
import { serve } from "../server/serve.js";
import { documentOf } from "./documents.js";
import { quantile, type Row } from "./measure.js";

const keys = 80;
const settleMs = 120;

interface Typed {
  /** Main-thread work of a key until the answers stand, 95th percentile. */
  readonly workMs: number;
  /** From the key to the frame that shows it, median. */
  readonly paintedMs: number;
}

/** Keys typed in the middle of documents of 1,000 and 10,000 lines, with answers and in the bare editor, in turns. */
export async function pageRows(root: string): Promise<readonly Row[]> {
  const barePage = mkdtempSync(join(tmpdir(), "rotaline-bare-"));
  await build({ root: join(root, "src/bench"), base: "./", logLevel: "error", configFile: false, build: { outDir: barePage, emptyOutDir: true, rollupOptions: { input: join(root, "src/bench/bare.html") } } });
  const executablePath = process.env.CHROMIUM ?? "/usr/bin/chromium";
  const browser = await chromium.launch({ executablePath, args: ["--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking"] });
  const rows: Row[] = [];
  for (const [lines, mostMs] of [[1_000, 8], [10_000, 16]] as const) {
    const folder = mkdtempSync(join(tmpdir(), "rotaline-bench-"));
    writeFileSync(join(folder, "plan.rota"), documentOf(lines));
    const own = await Folder.at(folder);
    const [full, bare] = [await serve(own, join(root, "dist/page"), 0), await serve(own, barePage, 0)];
    const [answered, floor]: [Typed[], Typed[]] = [[], []];
    for (let round = 0; round < 3; round += 1) {
      floor.push(await typed(browser, `${bare.url}bare.html?lines=${lines}`, ".cm-content"));
      answered.push(await typed(browser, `${full.url}#plan.rota`, "rota-app[data-answered] .cm-content"));
    }
    full.server.close();
    bare.server.close();
    const median = (of: readonly Typed[], key: keyof Typed): number => quantile(of.map((one) => one[key]));
    const size = lines.toLocaleString("en");
    rows.push(
      { name: `main-thread work of a key, p95, ${size} lines`, ms: median(answered, "workMs"), floorMs: mostMs, floor: `budget of ${mostMs} ms`, most: 1 },
      { name: `the same in the bare editor, ${size} lines`, ms: median(floor, "workMs"), floorMs: mostMs, floor: `budget of ${mostMs} ms`, most: null },
      { name: `key to painted, ${size} lines`, ms: median(answered, "paintedMs"), floorMs: median(floor, "paintedMs"), floor: "bare editor", most: 1.2 },
    );
  }
  await browser.close();
  return rows;
}

async function typed(browser: Browser, url: string, ready: string): Promise<Typed> {
  const page = await browser.newPage({ viewport: { width: 1280, height: 900 } });
  await page.goto(url);
  await page.waitForSelector(ready);
  await page.waitForTimeout(1_500);
  const content = page.locator(".cm-content");
  await content.click();
  // Somewhere inside the document: far from both ends, in a turn's size.
  for (let down = 0; down < 6; down += 1) await page.keyboard.press("PageDown");
  await page.evaluate(() => {
    const turn = [...document.querySelectorAll(".cm-line")].find((line) => / each while /.test(line.textContent ?? ""));
    const text = turn && document.createTreeWalker(turn, NodeFilter.SHOW_TEXT);
    for (let node = text?.nextNode(); node; node = text?.nextNode()) {
      if (!/^\d$/.test(node.textContent ?? "")) continue;
      getSelection()?.collapse(node, 1);
      break;
    }
  });
  await page.waitForTimeout(300);
  const client = await page.context().newCDPSession(page);
  await client.send("Performance.enable");
  const workSoFar = async (): Promise<number> => {
    const { metrics } = await client.send("Performance.getMetrics");
    const of = (name: string): number => metrics.find((metric) => metric.name === name)?.value ?? 0;
    return (of("ScriptDuration") + of("LayoutDuration") + of("RecalcStyleDuration")) * 1000;
  };
  await watchPaint(page);
  const [work, painted]: [number[], number[]] = [[], []];
  for (let key = 0; key < keys; key += 1) {
    const before = await workSoFar();
    await page.keyboard.press(key % 2 === 0 ? "1" : "Backspace");
    await page.waitForTimeout(settleMs);
    if (key >= 6) {
      work.push((await workSoFar()) - before);
      painted.push(await page.evaluate(() => Number(document.body.dataset.painted)));
    }
  }
  await page.close();
  if (process.env.DEBUG_BENCH) console.log(url.slice(22), work.map((x) => x.toFixed(1)).join(" "));
  return { workMs: quantile(work, 0.95), paintedMs: quantile(painted) };
}

/** Notes on the body how long the last key took until its frame was out. */
async function watchPaint(page: Page): Promise<void> {
  await page.evaluate(() => {
    addEventListener("keydown", (event) => {
      requestAnimationFrame(() => {
        const { port1, port2 } = new MessageChannel();
        port1.onmessage = () => (document.body.dataset.painted = String(performance.now() - event.timeStamp));
        port2.postMessage(null);
      });
    }, { capture: true });
  });
}
