import { parseArgs } from "node:util";
import { type Command, fail, status } from "../command.js";
import { paintFor } from "../terminal.js";

export const openCommand: Command = {
  about: "serve a notebook to the browser",
  help: `rotaline open [FOLDER] [--port PORT]

Checks the notebook, then serves it to this machine's browser. Without a folder: the demo notebook.

  rotaline open notebooks/lighthouse`,
  run: async (args, openNotebook) => {
    const { values, positionals } = parseArgs({
      args: [...args],
      allowPositionals: true,
      options: { port: { type: "string", default: "4270" } },
    });
    const port = Number(values.port);
    if (!Number.isInteger(port) || port < 0 || port > 65_535) return fail("A port is a whole number from 0 to 65535.");
    if (positionals.length > 1) return fail("One folder at a time.");
    const reason = await openNotebook(positionals[0] ?? null, port, paintFor(process.stdout));
    return reason === null ? status.good : fail(reason);
  },
};
