// Runs every test and closes with the line `N passed, N failed`. Installs Chromium where it is missing and can be.
import { spawnSync } from "node:child_process";
import { existsSync, mkdtempSync, readFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";

const browsers = [process.env.CHROMIUM, "/usr/bin/chromium", "/usr/bin/chromium-browser", "/usr/bin/google-chrome"].filter(Boolean);

if (!browsers.some((path) => existsSync(path))) {
  console.log("No Chromium here: trying Debian's package.");
  spawnSync("sh", ["-c", "apt-get update -qq && apt-get install -y -qq chromium"], { stdio: "inherit" });
  if (!browsers.some((path) => existsSync(path))) {
    console.error("The tests need Chromium. Install it (Debian: apt-get install chromium) or name it in the variable CHROMIUM.");
    console.log("0 passed, 1 failed");
    process.exit(1);
  }
}

const report = join(mkdtempSync(join(tmpdir(), "rotaline-")), "report.json");
const run = spawnSync(
  "npx",
  ["vitest", "run", "--reporter=default", "--reporter=json", `--outputFile.json=${report}`, ...process.argv.slice(2)],
  { stdio: "inherit" },
);
const {
  numPassedTests = 0,
  numFailedTests = 0,
  numFailedTestSuites = 0,
} = existsSync(report) ? JSON.parse(readFileSync(report, "utf8")) : {};
const failed = numFailedTests > 0 ? numFailedTests : run.status === 0 ? 0 : Math.max(1, numFailedTestSuites);
console.log(`${numPassedTests} passed, ${failed} failed`);
process.exit(failed > 0 || numPassedTests === 0 ? 1 : 0);
