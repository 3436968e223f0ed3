import { existsSync, statSync } from "node:fs";
import { join } from "node:path";
import type { Paint } from "../7-view/excerpt.js";
import { Folder } from "../server/folder.js";
import { serve } from "../server/serve.js";
import { check } from "./check.js";
import { readNotebook } from "./notebook.js";

/**
 * Checks a folder's notebook, then serves it with the page that was built beside the command until the process is
 * stopped. Gives the reason where it cannot.
 */
export async function openNotebook(built: string, given: string | null, port: number, paint: Paint): Promise<string | null> {
  const path = given ?? join(built, "..", "notebooks", "lighthouse");
  const page = join(built, "page");
  if (!existsSync(join(page, "index.html"))) return "The page is not built yet. Run: npm run build";
  if (!statSync(path, { throwIfNoEntry: false })?.isDirectory()) return `There is no folder “${path}”.`;
  const found = readNotebook([path]);
  if (found.ok) process.stdout.write(check(found.documents, "brief", paint).output);
  const folder = await Folder.at(path);
  // A port in use is no reason to fail: any free one will do.
  const { url } = await serve(folder, page, port).catch(() => serve(folder, page, 0));
  process.stdout.write(
    `What is wrong, line by line: rotaline check FOLDER, or in the page.\n\nThe notebook is open at ${url}  (stop with Ctrl+C)\n`,
  );
  return new Promise(() => undefined);
}
