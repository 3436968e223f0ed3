/** Makes the README's screenshot from the built page: `npm run picture`. */
import { join } from "node:path";
import { root } from "../notebook.js";
import { openDocument, serveCopy, startBrowser } from "./page.js";

const browser = await startBrowser();
const served = await serveCopy();
const page = await browser.newPage({ viewport: { width: 1280, height: 720 }, colorScheme: "light" });
await openDocument(page, served.url, "breakwater.rota");
await page.locator(".cm-line", { hasText: "A 29 % unbroken each   while Bram hold" }).click();
await page.locator(".detail", { hasText: "sandbag squat" }).waitFor();
await page.waitForTimeout(500);
await page.screenshot({ path: join(root, "tests/browser/notebook.png") });
await browser.close();
served.server.close();
