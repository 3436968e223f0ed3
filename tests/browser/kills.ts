/**
 * Kills the browser, or the server, at random moments while somebody types, loads the page again, and says how much of what was
 * typed is gone: `npm run kills -- 200`. In turn: a browser over a served folder, a browser alone, the server of a folder. Writes
 * its figures to tests/browser/kills.txt.
 */
import { type ChildProcess, execFileSync, spawn } from "node:child_process";
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

const kinds = ["browser, served", "browser alone", "server"] as const;

interface Loss {
  readonly kind: (typeof kinds)[number];
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

/** A notebook's folder served by the built command; `port` 0 for any. */
async function startServer(folder: string, port: number): Promise<{ readonly server: ChildProcess; readonly url: string }> {
  const server = spawn(process.execPath, [join(root, "dist/rotaline.js"), "open", folder, "--port", String(port)]);
  const url = await new Promise<string>((done) => {
    let said = "";
    server.stdout.on("data", (more: Buffer) => {
      said += more.toString();
      const [, at] = /open at (\S+)/.exec(said) ?? [];
      if (at !== undefined) done(at);
    });
  });
  return { server, url };
}

interface Notebook {
  readonly url: string;
  /** What is killed; null for the browser. */
  readonly killServer: (() => Promise<void>) | null;
  /** What stands outside the browser. */
  readonly text: () => string;
}

async function once(kind: Loss["kind"], { url, killServer, text }: Notebook): Promise<Loss> {
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
  const first = await open();
  await openDocument(first.page, url, "one-file.rota");
  await typeAfter(first.page, "plan Simple for Sprint", " // ");
  const times: number[] = [];
  const endMs = performance.now() + 500 + Math.random() * 3_000;
  while (performance.now() < endMs) {
    await first.page.keyboard.type("x");
    times.push(performance.now());
    await new Promise((done) => setTimeout(done, betweenKeysMs));
  }
  const killedMs = performance.now();
  if (killServer) await killServer();
  else kill(profile);
  await new Promise((done) => setTimeout(done, 300));
  const again = killServer ? first : await open();
  await openDocument(again.page, url, "one-file.rota");
  await again.page.waitForTimeout(1_500);
  const shown = (await again.page.evaluate(() => document.querySelector(".cm-content")?.textContent ?? "")) + text();
  const kept = Math.max(0, ...[...shown.matchAll(/\/\/ (x*)/g)].map(([, xs = ""]) => xs.length));
  await again.context.close();
  rmSync(profile, { recursive: true, force: true });
  const lost = times.length - kept;
  return { kind, typed: times.length, lost, lostMs: lost > 0 ? killedMs - (times[kept] ?? killedMs) : 0 };
}

const losses: Loss[] = [];
for (let at = 0; at < kills; at += 1) {
  const kind = kinds[at % kinds.length] ?? "server";
  const folder = join(mkdtempSync(join(tmpdir(), "rotaline-kills-")), "lighthouse");
  cpSync(join(root, "notebooks/lighthouse"), folder, { recursive: true });
  const text = (): string => readFileSync(join(folder, "one-file.rota"), "utf8");
  if (kind === "browser, served") {
    const { url, server } = await serve(await Folder.at(folder), join(root, "dist/page"), 0);
    losses.push(await once(kind, { url, killServer: null, text }));
    server.closeAllConnections();
    server.close();
  } else if (kind === "browser alone") {
    const host = await staticHost();
    losses.push(await once(kind, { url: host.url, killServer: null, text: () => "" }));
    await host.close();
  } else {
    let serving = await startServer(folder, 0);
    const { url } = serving;
    const killServer = async (): Promise<void> => {
      serving.server.kill("SIGKILL");
      await new Promise((done) => serving.server.once("exit", done));
      serving = await startServer(folder, Number(new URL(url).port));
    };
    losses.push(await once(kind, { url, killServer, text }));
    serving.server.kill("SIGKILL");
  }
}

const rows = kinds.map((kind) => {
  const own = losses.filter((loss) => loss.kind === kind);
  const sorted = own.map(({ lostMs }) => lostMs).sort((a, b) => a - b);
  const at = (share: number): string => ((sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))] ?? 0) / 1_000).toFixed(2);
  return `${kind.padEnd(16)} ${String(own.length).padStart(4)} kills   lost: half of the time ${at(0.5)} s at most, at worst ${at(1)} s; over a second in ${own.filter(({ lostMs }) => lostMs > 1_000).length}`;
});
const report = `What a kill of the browser or the server in the middle of typing costs (a key every ${betweenKeysMs} ms and more).\n\n${rows.join("\n")}\n`;
writeFileSync(join(root, "tests/browser/kills.txt"), report);
process.stdout.write(report);
process.exit(0);
