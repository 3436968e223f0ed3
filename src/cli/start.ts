/** What `rotaline` starts: the built command, and the server only where it is asked for. */
import { compiledCommand } from "./compiled.js";

const { main } = compiledCommand(__dirname);

void main(process.argv.slice(2), async (path, port, paint) => (await import("./open.js")).openNotebook(__dirname, path, port, paint)).then((code) => {
  process.exitCode = code;
});
