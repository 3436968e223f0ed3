import { serveCopy, startBrowser, openDocument } from "./browser/page.js";
import { mkdirSync } from "node:fs";
mkdirSync("/tmp/s", { recursive: true });
const b = await startBrowser(); const s = await serveCopy();
for (const [scheme, width] of [["light", 1280], ["dark", 390]] as const) {
const c = await b.newContext({ viewport: { width, height: 850 }, colorScheme: scheme }); const page = await c.newPage();
page.on("pageerror", (e) => console.log("ERR", e.message)); page.on("console", (m) => m.type() === "error" && console.log(m.text()));
await openDocument(page, s.url, "breakwater.rota"); await page.waitForTimeout(1500);
await page.screenshot({ path: `/tmp/s/${scheme}${width}.png` });
await page.locator("rota-menu button", { hasText: "Text" }).click(); await page.screenshot({ path: `/tmp/s/menu-${scheme}${width}.png` });
await page.keyboard.press("Escape");
}
await b.close(); s.server.close();
