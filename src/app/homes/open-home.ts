import { demo } from "../demo.js";
import type { Notice } from "../notebook.js";
import { BrowserHome } from "./browser-home.js";
import { openFolder, rememberedFolder } from "./folder-home.js";
import type { Home } from "./home.js";
import { serverHome } from "./server-home.js";

/** The home of this page: its server's folder; else the folder of this machine opened last; else the browser. */
export async function openHome(tell: (notice: Notice) => void): Promise<Home> {
  const served = serverHome();
  if (served) return served;
  const folder = await rememberedFolder();
  if (folder?.home) return folder.home;
  if (folder) {
    tell({ text: `The folder ${folder.name} was open last time; the browser asks you again before it reads it.`, action: { label: "Open it", run: () => void openFolder() } });
  }
  return new BrowserHome(demo);
}
