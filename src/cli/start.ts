/** What `rotaline` starts: the built command, and the server only where it is asked for. */
import { compiledCommand } from "./compiled.js";

const { main } = compiledCommand(__dirname, require);

// Whoever reads may stop reading; a full disk is said, not thrown.
process.stdout.on("error", (error: NodeJS.ErrnoException) => {
  if (error.code !== "EPIPE")
    process.stderr.write(`rotaline: what was to be said could not be written (${error.code ?? error.message}).\n`);
  process.exit(error.code === "EPIPE" ? 0 : 2);
});
process.stderr.on("error", () => undefined);

void main(process.argv.slice(2), async (path, port, paint) => (await import("./open.js")).openNotebook(__dirname, path, port, paint)).then(
  (code) => {
    process.exitCode = code;
  },
);
