/** What the tests of the page share: a browser, and for each test the demo notebook served anew with a page of its own. */
import { readFileSync } from "node:fs";
import { join } from "node:path";
import type { Browser, Page } from "playwright-core";
import { afterAll, afterEach, beforeAll, beforeEach, expect, type RunnerTestCase, type RunnerTestSuite } from "vitest";
import { root } from "../notebook.js";
import { serveCopy, type Served, startBrowser } from "./page.js";

/** Gives `take` what each test needs, before it. Errors of the page fail the test, unless it takes them out of the list. */
export function useBrowser(
  take: (fresh: { readonly browser: Browser; readonly served: Served; readonly page: Page }) => void,
  { bypassCSP = false } = {},
): string[] {
  const errors: string[] = [];
  let browser: Browser;
  let served: Served;
  let page: Page;
  beforeAll(async ({}, file) => {
    // A real browser on a machine that is busy with other tests now and then loses its moment: it gets a second one.
    for (const test of testsIn(file)) test.retry = 1;
    browser = await startBrowser();
  });
  afterAll(async () => {
    await browser.close();
  });
  beforeEach(async () => {
    errors.length = 0;
    served = await serveCopy();
    const context = await browser.newContext({ viewport: { width: 1280, height: 900 }, bypassCSP });
    page = await context.newPage();
    page.setDefaultTimeout(30_000);
    page.on("pageerror", (error) => errors.push(error.message));
    page.on("console", (message) => message.type() === "error" && errors.push(message.text()));
    take({ browser, served, page });
  });
  afterEach(async () => {
    await page.context().close();
    served.server.close();
    expect(errors.splice(0)).toEqual([]);
  });
  return errors;
}

function testsIn({ tasks }: Readonly<RunnerTestSuite>): readonly RunnerTestCase[] {
  return tasks.flatMap((task) => (task.type === "suite" ? testsIn(task) : [task]));
}

/** What axe finds on a page whose context bypasses its content policy. */
export async function axeFindings(page: Page): Promise<readonly string[]> {
  await page.addScriptTag({ content: readFileSync(join(root, "node_modules/axe-core/axe.min.js"), "utf8") });
  return page.evaluate(
    "axe.run({ runOnly: ['wcag2a', 'wcag2aa', 'wcag21aa', 'wcag22aa', 'best-practice'] }).then(({ violations }) => violations.map(({ id, nodes }) => id + ': ' + nodes.map(({ html }) => html.slice(0, 120)).join(' | ')))",
  );
}
