/** The built page in a real Chromium, served by the project's own server from a copy of the demo notebook. */
import { cpSync, existsSync, mkdtempSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { type Browser, chromium, type Page } from "playwright-core";
import { Folder } from "../../src/server/folder.js";
import { serve, type Serving } from "../../src/server/serve.js";
import { root } from "../notebook.js";

const executablePath = [process.env.CHROMIUM, "/usr/bin/chromium", "/usr/bin/chromium-browser", "/usr/bin/google-chrome"].find((path) => path !== undefined && existsSync(path));

export async function startBrowser(): Promise<Browser> {
  if (executablePath === undefined) throw new Error("No Chromium: install it (Debian: apt-get install chromium) or name it in CHROMIUM.");
  return chromium.launch({ executablePath, args: ["--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking", "--disable-component-update", "--disable-sync"] });
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

/** Opens a document and waits for its first answers. */
export async function openDocument(page: Page, url: string, path: string): Promise<void> {
  await page.goto(`${url}#${path}`);
  await page.waitForSelector("rota-app[data-answered]");
  await page.waitForFunction((name) => document.querySelector(".text h2")?.textContent === name, path);
  await page.waitForTimeout(50);
}

/** The answer beside the line that holds some words, as the gutter shows it. */
export async function answerBeside(page: Page, words: string): Promise<string> {
  return page.evaluate((wanted) => {
    const line = [...document.querySelectorAll<HTMLElement>(".cm-line")].find((one) => one.textContent?.includes(wanted));
    const top = line?.getBoundingClientRect().top ?? -1;
    const cell = [...document.querySelectorAll<HTMLElement>(".rota-answers > span")].find((one) => one.textContent !== "" && Math.abs(one.getBoundingClientRect().top - top) < 3);
    return cell?.textContent ?? "";
  }, words);
}

/** Puts the cursor behind some words and types. */
export async function typeAfter(page: Page, words: string, text: string): Promise<void> {
  await page.locator(".cm-line", { hasText: words }).first().click();
  await page.keyboard.press("End");
  await page.keyboard.type(text);
}
