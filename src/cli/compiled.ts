import { existsSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { Script } from "node:vm";
import type { main } from "./main.js";

/** Beside the built command: what V8 made of it at the build. */
export const codeFile = "command.code";

/** The built command of a folder. V8 takes over the code kept beside it; of another version of Node it compiles anew. */
export function compiledCommand(folder: string): { readonly script: Script; readonly main: typeof main } {
  const file = join(folder, "command.js");
  const code = join(folder, codeFile);
  const script = new Script(readFileSync(file, "utf8"), { filename: file, ...(existsSync(code) && { cachedData: readFileSync(code) }) });
  const module: { exports: { main: typeof main } } = { exports: { main: () => Promise.reject(new Error("The command is not built. Run: npm run build")) } };
  script.runInThisContext()(require, module);
  return { script, main: module.exports.main };
}
