import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import type { PlanSpec } from "../3-plan/plan.js";
import { Follower } from "../4-timeline/follow.js";
import { gainOf } from "../4-timeline/spread.js";
import { betterRest, restFrom } from "../6-search/rest.js";
import { numberAt } from "../7-view/number-at.js";
import { trialPoint } from "../7-view/number-trial.js";
import { compile, type Compiled } from "../compile.js";
import { quantile, type BenchRow, times } from "./measure.js";

/** Days behind a first curve, as the page has them. */
const firstDays = 8;
const mostLooks = 400;
/** A frame at 60 a second. */
const frameMs = 1_000 / 60;

/** What is tried at once: a mark on the floor, another plan for the rest, the neighbours of a number. All on the demo's longest plan. */
export function floorRows(root: string): readonly BenchRow[] {
  const folder = join(root, "notebooks/lighthouse");
  const documents = readdirSync(folder)
    .filter((name) => name.endsWith(".rota"))
    .map((path) => ({ path, text: readFileSync(join(folder, path), "utf8") }));
  const compiled = compile(documents);
  const {
    abilities,
    world: { constants },
  } = compiled.kept;
  const bold = planIn(compiled, "Bold");
  const steady = documents.find(({ path }) => path === "breakwater.rota")?.text ?? "";
  if (!bold) return [];
  const marked =
    quantile(times(20, () => new Follower(bold, abilities, constants).end({ turn: 0, endS: 62 }))) -
    quantile(times(20, () => new Follower(bold, abilities, constants)));
  const rest = quantile(
    times(7, () => {
      const follower = new Follower(bold, abilities, constants);
      follower.end({ turn: 0, endS: 62 });
      const left = restFrom(follower, 62);
      if (!left) return;
      let looks = 0;
      for (const { planned, best } of betterRest(left, abilities, constants)) {
        looks += 1;
        if (looks > mostLooks || (best.worth.sound && gainOf("time", best.worth.middle, planned.worth.middle) >= 3)) break;
      }
    }),
  );
  const line = "      A 8-5-2";
  const number = numberAt(line, 8);
  const at = steady.indexOf(line) + (number?.from ?? 0);
  const curve = quantile(
    times(7, () => {
      for (const value of number?.values ?? []) {
        const text = steady.slice(0, at) + String(value) + steady.slice(at + 1);
        const plan = planIn(
          compile(
            documents.map((document) => (document.path === "breakwater.rota" ? { path: document.path, text } : document)),
            compiled,
          ),
          "Steady",
        );
        if (plan) trialPoint(value, plan, abilities, constants, firstDays);
      }
    }),
  );
  return [
    { name: "the rest timed again after a mark", ms: marked, floorMs: frameMs, floor: "a frame", most: 1 },
    { name: "first useful plan for the rest of a plan", ms: rest, floorMs: 300, floor: "300 ms", most: 1 },
    { name: `first curve of a number, ${number?.values.length ?? 0} values`, ms: curve, floorMs: 150, floor: "150 ms", most: 1 },
  ];
}

function planIn({ documents }: Compiled, name: string): PlanSpec | null {
  const block = [...documents.values()]
    .flatMap(({ blocks }) => blocks)
    .find(
      ({
        block: {
          read: { line },
        },
      }) => line.kind === "plan" && line.name.text === name,
    );
  return block?.plan?.resolved.plan ?? null;
}
