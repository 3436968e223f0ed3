import { commandRows } from "./command.js";
import { coreRows } from "./core.js";
import { spreadRows } from "./spread.js";
import { floorRows } from "./floor.js";
import { searchRows } from "./search.js";
import { weekRows } from "./week.js";
import { pageRows } from "./page.js";

const root = process.cwd();
const rows = [
  ...coreRows(),
  ...spreadRows(),
  ...searchRows(root),
  ...floorRows(root),
  ...weekRows(root),
  ...commandRows(root),
  ...(await pageRows(root)),
];

console.log(`${"".padEnd(52)}${"ms".padStart(9)}${"ratio".padStart(9)}   against`);
for (const { name, ms, floorMs, floor, most } of rows) {
  const ratio = ms / floorMs;
  const verdict =
    most === null ? "" : ratio <= most ? `  at most ${Number(most.toFixed(3))}: kept` : `  at most ${Number(most.toFixed(3))}: MISSED`;
  console.log(`${name.padEnd(52)}${ms.toFixed(2).padStart(9)}${ratio.toFixed(3).padStart(9)}   ${floor}${verdict}`);
}
process.exitCode = rows.some(({ ms, floorMs, most }) => most !== null && ms / floorMs > most) ? 1 : 0;
