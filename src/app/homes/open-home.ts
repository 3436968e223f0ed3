import { demo } from "../demo.js";
import type { Notice } from "../notebook.js";
import { BrowserHome } from "./browser-home.js";
import { pickFolder, rememberedFolder } from "./folder-home.js";
import type { Home } from "./home.js";
import { serverHome } from "./server-home.js";

/** The home of this page: its server's folder; else the folder of this machine opened last; else the browser. */
export async function openHome(tell: (notice: Notice) => void): Promise<Home> {
  const served = serverHome();
  if (served) return served;
  const folder = await rememberedFolder();
  if (folder?.home) return folder.home;
  if (folder) {
    const again = async (): Promise<void> => void ((await pickFolder()) && location.reload());
    tell({ text: `The folder ${folder.name} was open last time; the browser asks you again before it reads it.`, action: { label: "Open it", run: () => void again() } });
  }
  return new BrowserHome(demo);
}
