/** The built page in a real Chromium, served by the project's own server from a copy of the demo notebook. */
import { cpSync, existsSync, mkdtempSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { type Browser, chromium, type Page } from "playwright-core";
import { preview } from "vite";
import { Folder } from "../../src/server/folder.js";
import { serve, type Serving } from "../../src/server/serve.js";
import { root } from "../notebook.js";

const executablePath = [process.env.CHROMIUM, "/usr/bin/chromium", "/usr/bin/chromium-browser", "/usr/bin/google-chrome"].find(
  (path) => path !== undefined && existsSync(path),
);

export const browserArguments: string[] = [
  "--no-sandbox",
  "--disable-gpu",
  "--disable-quic",
  "--no-first-run",
  "--disable-background-networking",
  "--disable-component-update",
  "--disable-sync",
  // The last list of these counts. Each window would start two pages of the browser's own for what is typed into its address bar:
  // a third of all that a test takes.
  `--disable-features=${["WebUIOmniboxPopup", "WebUIOmniboxAimPopup", "PaintHolding", "OptimizationHints", "HttpsUpgrades", "MediaRouter", "Translate"].join()}`,
];

export function browserPath(): string {
  if (executablePath === undefined) throw new Error("No Chromium: install it (Debian: apt-get install chromium) or name it in CHROMIUM.");
  return executablePath;
}

export async function startBrowser(): Promise<Browser> {
  return chromium.launch({ executablePath: browserPath(), args: browserArguments });
}

export interface Served extends Serving {
  readonly folder: string;
}

/** The demo notebook copied to a folder of its own, served on a free port. */
export async function serveCopy(): Promise<Served> {
  const folder = join(mkdtempSync(join(tmpdir(), "rotaline-page-")), "lighthouse");
  cpSync(join(root, "notebooks/lighthouse"), folder, { recursive: true });
  return { ...(await serve(await Folder.at(folder), join(root, "dist/page"), 0)), folder };
}

/** The built page as any static host would give it, from a copy that a test may change. */
export async function staticHost(): Promise<{ readonly url: string; readonly folder: string; readonly close: () => Promise<void> }> {
  const folder = mkdtempSync(join(tmpdir(), "rotaline-static-"));
  cpSync(join(root, "dist/page"), folder, { recursive: true });
  const host = await preview({
    configFile: false,
    root: folder,
    logLevel: "error",
    build: { outDir: folder },
    preview: { host: "127.0.0.1", port: 0 },
  });
  return { url: host.resolvedUrls?.local[0] ?? "", folder, close: () => host.close() };
}

/** Chooses an entry of one of the menus above the text. */
export async function choose(page: Page, menu: string, entry: string): Promise<void> {
  await page.locator(`rota-menu[label=${menu}] .opens`).click();
  await page.locator(`rota-menu[label=${menu}] li button`, { hasText: entry }).first().click();
}

/** The text of the document as the editor has it: all of it, where it fits the screen. */
export async function textOf(page: Page): Promise<string> {
  return page.evaluate(() => [...document.querySelectorAll(".sheet .cm-line")].map((line) => line.textContent).join("\n"));
}

/** Opens a document and waits for its first answers. */
export async function openDocument(page: Page, url: string, path: string): Promise<void> {
  await page.goto(`${url}#${path}`);
  await page.waitForSelector("rota-app[data-answered]");
  await page.waitForFunction((name) => document.querySelector(".text h2")?.textContent === name, path);
  await page.waitForTimeout(50);
}

/** The answer beside the line that holds some words, as the page shows it; the fields of a row with dots between. */
export async function answerBeside(page: Page, words: string): Promise<string> {
  return page.evaluate((wanted) => {
    const line = [...document.querySelectorAll<HTMLElement>(".cm-line")].find((one) => one.textContent?.includes(wanted));
    const top = line?.getBoundingClientRect().top ?? -1;
    const cell = [...document.querySelectorAll<HTMLElement>(".rota-answers > span")].find(
      (one) => one.textContent !== "" && Math.abs(one.getBoundingClientRect().top - top) < 3,
    );
    return cell?.dataset.table ? [...cell.children].map(({ textContent }) => textContent).join(" · ") : (cell?.textContent ?? "");
  }, words);
}

/** Puts the cursor behind some words and types. */
export async function typeAfter(page: Page, words: string, text: string): Promise<void> {
  await page.locator(".cm-line", { hasText: words }).first().click();
  await page.keyboard.press("End");
  await page.keyboard.type(text);
}

/** Keys and values of one of the page's own stores. */
export function storedIn(page: Page, store: "documents" | "drafts" | "copies"): Promise<readonly (readonly [string, unknown])[]> {
  return page.evaluate(
    (name) =>
      new Promise<[string, unknown][]>((done, failed) => {
        const request = indexedDB.open("rotaline-texts", 1);
        request.onerror = () => failed(request.error);
        request.onsuccess = () => {
          const all = request.result.transaction(name).objectStore(name);
          const [keys, values] = [all.getAllKeys(), all.getAll()];
          all.transaction.oncomplete = () => {
            done(keys.result.map((key, at) => [String(key), values.result[at]]));
            request.result.close();
          };
        };
      }),
    store,
  );
}
