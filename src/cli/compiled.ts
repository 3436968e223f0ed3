import { existsSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { Script } from "node:vm";
import type { main } from "./main.js";

/** Beside the built command: what V8 made of it at the build. */
export const codeFile = "command.code";

/** The built command of a folder. V8 takes over the code kept beside it; of another version of Node it compiles anew. */
export function compiledCommand(folder: string, require: NodeJS.Require): { readonly script: Script; readonly main: typeof main } {
  const file = join(folder, "command.js");
  const code = join(folder, codeFile);
  const script = new Script(readFileSync(file, "utf8"), { filename: file, ...(existsSync(code) && { cachedData: readFileSync(code) }) });
  const load: (from: NodeJS.Require) => { readonly main: typeof main } = script.runInThisContext();
  return { script, ...load(require) };
}
