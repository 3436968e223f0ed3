import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { suggest } from "../6-search/suggest.js";
import { compile } from "../compile.js";
import { quantile, type BenchRow, times } from "./measure.js";

const mostSteps = 4_000;

/** Milliseconds to the first plan of the demo's events that breaks no rule and misses nothing on a poor day. */
export function searchRows(root: string): readonly BenchRow[] {
  const folder = join(root, "notebooks/lighthouse");
  const documents = readdirSync(folder)
    .filter((name) => name.endsWith(".rota"))
    .map((path) => ({ path, text: readFileSync(join(folder, path), "utf8") }));
  const { world, abilities } = compile(documents).kept;
  const team = world.teams.get("Kelp Street");
  return ["Two Ladders", "Breakwater"].flatMap((name): readonly BenchRow[] => {
    const event = world.events.get(name);
    if (!event || !team) return [];
    const ms = quantile(
      times(5, () => {
        for (const { steps, suggestions } of suggest(event, team, abilities, world.constants))
          if (suggestions[0]?.worth.sound || steps > mostSteps) break;
      }),
    );
    return [{ name: `first useful plan for ${name}`, ms, floorMs: 300, floor: "300 ms", most: 1 }];
  });
}
