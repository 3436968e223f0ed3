import { mkdtempSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { type Browser, chromium, type Page } from "playwright-core";
import { build } from "vite";
import { Folder } from "../server/folder.js";
import { serve } from "../server/serve.js";
import { documentOf } from "./documents.js";
import { loadRows } from "./load.js";
import { quantile, type BenchRow } from "./measure.js";

const keys = 80;
const settleMs = 120;

interface Typed {
  /** Main-thread work of a key until the answers stand, 95th percentile. */
  readonly workMs: number;
  /** From the key to the frame that shows it, median. */
  readonly paintedMs: number;
}

/** Keys typed in the middle of documents of 1,000 and 10,000 lines, with answers and in the bare editor, in turns. */
export async function pageRows(root: string): Promise<readonly BenchRow[]> {
  const barePage = mkdtempSync(join(tmpdir(), "rotaline-bare-"));
  await build({
    root: join(root, "src/bench"),
    base: "./",
    logLevel: "error",
    configFile: false,
    build: { outDir: barePage, emptyOutDir: true, rollupOptions: { input: join(root, "src/bench/bare.html") } },
  });
  const executablePath = process.env.CHROMIUM ?? "/usr/bin/chromium";
  const browser = await chromium.launch({
    executablePath,
    args: ["--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking"],
  });
  const rows: BenchRow[] = [...(await loadRows(browser, root, barePage))];
  for (const [lines, mostMs] of [
    [1_000, 8],
    [10_000, 16],
  ] as const) {
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
      {
        name: `main-thread work of a key, p95, ${size} lines`,
        ms: median(answered, "workMs"),
        floorMs: mostMs,
        floor: `budget of ${mostMs} ms`,
        most: 1,
      },
      {
        name: `the same in the bare editor, ${size} lines`,
        ms: median(floor, "workMs"),
        floorMs: mostMs,
        floor: `budget of ${mostMs} ms`,
        most: null,
      },
      {
        name: `key to painted, ${size} lines`,
        ms: median(answered, "paintedMs"),
        floorMs: median(floor, "paintedMs"),
        floor: "bare editor",
        most: 1.2,
      },
    );
  }
  await browser.close();
  return rows;
}

async function typed(browser: Browser, url: string, ready: string): Promise<Typed> {
  const page = await browser.newPage({ viewport: { width: 1280, height: 900 } });
  await page.addInitScript({ content: timeAnswers });
  await page.goto(url);
  await page.waitForSelector(ready);
  await page.waitForTimeout(1_500);
  await page.locator(".cm-content").click();
  // Somewhere inside the document: far from both ends, in a turn's size.
  for (let down = 0; down < 6; down += 1) await page.keyboard.press("PageDown");
  await page.evaluate(intoTurn);
  await page.waitForTimeout(300);
  const painted = await paintedOf(page);
  const work = JSON.parse(await page.evaluate(`(${dispatched})(${keys})`));
  await page.close();
  return { workMs: quantile(work, 0.95), paintedMs: quantile(painted) };
}

async function paintedOf(page: Page): Promise<readonly number[]> {
  await page.evaluate(watchPaint);
  const painted: number[] = [];
  for (let key = 0; key < keys; key += 1) {
    await page.keyboard.press(key % 2 === 0 ? "1" : "Backspace");
    await page.waitForTimeout(settleMs);
    if (key >= 6) painted.push(await page.evaluate(() => Number(document.body.dataset.painted)));
  }
  return painted;
}

/** Puts the cursor behind the size of a visible turn. */
function intoTurn(): void {
  const turn = [...document.querySelectorAll(".cm-line")].find((line) => / each while /.test(line.textContent ?? ""));
  const text = turn && document.createTreeWalker(turn, NodeFilter.SHOW_TEXT);
  for (let node = text?.nextNode(); node; node = text?.nextNode()) {
    if (!/^\d$/.test(node.textContent ?? "")) continue;
    getSelection()?.collapse(node, 1);
    return;
  }
}

/** Notes on the body how long the last key took until its frame was out. */
function watchPaint(): void {
  addEventListener(
    "keydown",
    (event) => {
      requestAnimationFrame(() => {
        const { port1, port2 } = new MessageChannel();
        port1.onmessage = () => (document.body.dataset.painted = String(performance.now() - event.timeStamp));
        port2.postMessage(null);
      });
    },
    { capture: true },
  );
}

/** Runs in the page before anything else: times what the page does with each message of its worker, layout included. */
const timeAnswers = `
  const add = Worker.prototype.addEventListener;
  window.heardMs = [];
  Worker.prototype.addEventListener = function (type, listener, options) {
    return add.call(this, type, type !== "message" ? listener : (event) => {
      const start = performance.now();
      listener(event);
      document.body.offsetHeight;
      if (event.data.kind === "answers") window.heardMs.push(performance.now() - start);
    }, options);
  };`;

/**
 * Runs in the page: edits the text at the cursor and adds up, for each edit, the dispatch, the editor's measure and the
 * layout, and then the same for its answers. The view is found as CodeMirror finds it from its own content.
 */
const dispatched = `async (count) => {
  const view = document.querySelector(".cm-content").cmTile.root.view;
  const found = [];
  const settle = () => new Promise((done) => setTimeout(done, 70));
  const withAnswers = document.querySelector("rota-app") !== null;
  for (let at = 0; at < count; at += 1) {
    const { head } = view.state.selection.main;
    const typing = at % 2 === 0;
    const heard = window.heardMs.length;
    const start = performance.now();
    view.dispatch(typing ? { changes: { from: head, insert: "1" }, selection: { anchor: head + 1 } } : { changes: { from: head - 1, to: head } });
    view.coordsAtPos(view.state.selection.main.head);
    document.body.offsetHeight;
    const own = performance.now() - start;
    while (withAnswers && window.heardMs.length === heard) await settle();
    await settle();
    if (at >= 6) found.push(own + window.heardMs.slice(heard).reduce((sum, ms) => sum + ms, 0));
  }
  return JSON.stringify(found);
}`;
