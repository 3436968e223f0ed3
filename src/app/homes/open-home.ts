import { demo } from "../demo.js";
import type { Notice } from "../notebook.js";
import { BrowserHome } from "./browser-home.js";
import { openFolder, rememberedFolder } from "./folder-home.js";
import type { Home } from "./home.js";
import { serverHome } from "./server-home.js";

/** The home of this page: its server's folder; else the folder of this machine opened last; else the browser. */
export async function openHome(): Promise<{ readonly home: Home; readonly notice: Notice | null }> {
  const served = serverHome();
  if (served) return { home: served, notice: null };
  const folder = await rememberedFolder();
  if (folder?.home) return { home: folder.home, notice: null };
  const home = new BrowserHome(demo);
  if (!folder) return { home, notice: null };
  return { home, notice: { text: `The folder ${folder.name} was open last time; the browser asks you again before it reads it.`, action: { label: "Open it", run: () => void openFolder() } } };
}
