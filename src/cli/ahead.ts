/** The build's last step: checks a notebook, and keeps the code that V8 made of the command for it. */
import { writeFileSync } from "node:fs";
import { join } from "node:path";
import { codeFile, compiledCommand } from "./compiled.js";

const { script, main } = compiledCommand(__dirname);
process.stdout.write = () => true;
void main(["check", ...process.argv.slice(2)], () => Promise.resolve(null)).then(() =>
  writeFileSync(join(__dirname, codeFile), script.createCachedData()),
);
