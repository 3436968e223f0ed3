import { spawnSync } from "node:child_process";
import { quantile, type BenchRow, times } from "./measure.js";

/** `rotaline check` of the demo notebook, as built, against an empty start of Node. */
export function commandRows(root: string): readonly BenchRow[] {
  const start = (args: readonly string[]): number => quantile(times(15, () => void spawnSync(process.execPath, args, { cwd: root })));
  const floorMs = start(["-e", "0"]);
  return [
    {
      name: "rotaline check notebooks/lighthouse",
      ms: start(["dist/rotaline.js", "check", "notebooks/lighthouse"]),
      floorMs,
      floor: "empty Node start",
      most: 4,
    },
  ];
}
