/**
 * Kills the browser at random moments while somebody types, loads the page again, and says how much of what was typed is gone:
 * `npm run kills -- 200`. Half of the runs have a server and its folder, half the browser alone. Writes its figures to
 * tests/browser/kills.txt.
 */
import { execFileSync } from "node:child_process";
import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { chromium } from "playwright-core";
import { Folder } from "../../src/server/folder.js";
import { serve } from "../../src/server/serve.js";
import { root } from "../notebook.js";
import { browserArguments, browserPath, openDocument, staticHost, typeAfter } from "./page.js";

const kills = Number(process.argv[2] ?? 20);
const betweenKeysMs = 25;

interface Loss {
  readonly home: "served" | "browser";
  readonly typed: number;
  readonly lost: number;
  readonly lostMs: number;
}

/** Ends every process over a profile at once, as a crash would. */
function kill(profile: string): void {
  try {
    execFileSync("pkill", ["-9", "-f", profile]);
  } catch {
    // None was left.
  }
}

async function once(home: Loss["home"], url: string, textNow: () => Promise<string> | string): Promise<Loss> {
  const profile = mkdtempSync(join(tmpdir(), "rotaline-kill-"));
  const open = async () => {
    const context = await chromium.launchPersistentContext(profile, {
      executablePath: browserPath(),
      args: browserArguments,
      viewport: { width: 1280, height: 900 },
    });
    const page = context.pages()[0] ?? (await context.newPage());
    return { context, page };
  };
  const { page } = await open();
  await openDocument(page, url, "one-file.rota");
  await typeAfter(page, "plan Simple for Sprint", " // ");
  const times: number[] = [];
  const endMs = performance.now() + 500 + Math.random() * 3_000;
  while (performance.now() < endMs) {
    await page.keyboard.type("x");
    times.push(performance.now());
    await new Promise((done) => setTimeout(done, betweenKeysMs));
  }
  const killedMs = performance.now();
  kill(profile);
  await new Promise((done) => setTimeout(done, 300));
  const again = await open();
  await openDocument(again.page, url, "one-file.rota");
  await again.page.waitForTimeout(1_500);
  const shown = (await again.page.evaluate(() => document.querySelector(".cm-content")?.textContent ?? "")) + (await textNow());
  const kept = Math.max(0, ...[...shown.matchAll(/\/\/ (x*)/g)].map(([, xs = ""]) => xs.length));
  await again.context.close();
  rmSync(profile, { recursive: true, force: true });
  const lost = times.length - kept;
  return { home, typed: times.length, lost, lostMs: lost > 0 ? killedMs - (times[kept] ?? killedMs) : 0 };
}

const losses: Loss[] = [];
for (let at = 0; at < kills; at += 1) {
  if (at % 2 === 0) {
    const folder = join(mkdtempSync(join(tmpdir(), "rotaline-kills-")), "lighthouse");
    cpSync(join(root, "notebooks/lighthouse"), folder, { recursive: true });
    const { url, server } = await serve(await Folder.at(folder), join(root, "dist/page"), 0);
    losses.push(await once("served", url, () => readFileSync(join(folder, "one-file.rota"), "utf8")));
    server.closeAllConnections();
    server.close();
  } else {
    const host = await staticHost();
    losses.push(await once("browser", host.url, () => ""));
    await host.close();
  }
}

const rows = (["served", "browser"] as const).map((home) => {
  const own = losses.filter((loss) => loss.home === home);
  const sorted = own.map(({ lostMs }) => lostMs).sort((a, b) => a - b);
  const at = (share: number): string => ((sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))] ?? 0) / 1_000).toFixed(2);
  return `${home.padEnd(8)} ${String(own.length).padStart(4)} kills   lost: half of the time ${at(0.5)} s at most, at worst ${at(1)} s; over a second in ${own.filter(({ lostMs }) => lostMs > 1_000).length}`;
});
const report = `What a kill of the browser in the middle of typing costs (a key every ${betweenKeysMs} ms and more).\n\n${rows.join("\n")}\n`;
writeFileSync(join(root, "tests/browser/kills.txt"), report);
process.stdout.write(report);
process.exit(0);
