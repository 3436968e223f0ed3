/** Runs the floor's clock for three real minutes in a real browser and says how far it was from this machine's clock. */
import { writeFileSync } from "node:fs";
import { join } from "node:path";
import { root } from "../notebook.js";
import { choose, openDocument, serveCopy, startBrowser } from "./page.js";

const minutes = 3;
const [browser, served] = [await startBrowser(), await serveCopy()];
const page = await browser.newPage({ viewport: { width: 1024, height: 768 } });
await openDocument(page, served.url, "breakwater.rota");
await page.locator("rota-lanes .score").waitFor({ state: "attached" });
await choose(page, "Document", "Clock for this plan");
await page.locator("rota-clock").getByRole("button", { name: "Start in 10 s" }).click();
const startMs = await page.evaluate(() => JSON.parse(localStorage.getItem("rotaline-floor") ?? "{}").startMs);
const shown = page.locator("rota-clock [aria-label=elapsed]");
const offsMs: number[] = [];
let before = "";
while (Date.now() < startMs + minutes * 60_000) {
  const now = (await shown.count()) > 0 ? ((await shown.textContent()) ?? "") : "";
  // At the change of a second the shown time is exact.
  if (now !== before && now !== "" && before !== "") {
    const [minute = 0, second = 0] = now.split(":").map(Number);
    offsMs.push(Date.now() - startMs - 1000 * (60 * minute + second));
  }
  before = now;
  await page.waitForTimeout(5);
}
const sorted = offsMs.toSorted((a, b) => a - b);
const at = (share: number): number => sorted[Math.floor(share * (sorted.length - 1))] ?? Number.NaN;
const [early, late] = [offsMs.slice(0, 20), offsMs.slice(-20)].map((some) => some.reduce((sum, off) => sum + off, 0) / some.length);
const said = `${minutes} real minutes, ${offsMs.length} changes of the second looked at.
A second was shown ${at(0.5)} ms after it was over on the median, ${at(0.95)} ms in 95 of 100, ${at(1)} ms at most (the page looks every 100 ms, this script every 5 or more).
Mean of the first twenty ${Math.round(early ?? 0)} ms, of the last twenty ${Math.round(late ?? 0)} ms: a drift of ${Math.round((late ?? 0) - (early ?? 0))} ms.
`;
writeFileSync(join(root, "tests/browser/drift.txt"), said);
console.log(said);
await browser.close();
served.server.close();
served.server.closeAllConnections();
