import { parseArgs } from "node:util";
import { drawsToCompare } from "../../4-timeline/spread.js";
import { compared, type Contender, contenderFor, drawComparison } from "../../7-view/comparison.js";
import type { Compiled } from "../../compile.js";
import { type Command, compiledAt, fail, planNamed, status, wordsOf } from "../command.js";

export const compareCommand: Command = {
  about: "set plans side by side",
  // Made when it is asked for: the platform's way of writing numbers takes long to load.
  get help() {
    return `rotaline compare PLAN PLAN… [PATH…] [--format text|json]

Runs each plan on the same ${drawsToCompare.toLocaleString("en")} days and says how the scores spread, how often one beats the other, and what
differs by stage and athlete. Without a path: the notebook here.

  rotaline compare Steady Bold notebooks/lighthouse`;
  },
  run: (args) => {
    const { values, positionals } = parseArgs({ args: [...args], allowPositionals: true, options: { in: { type: "string", multiple: true, default: [] }, format: { type: "string", default: "text" } } });
    if (values.format !== "text" && values.format !== "json") return fail(`There is no format “${values.format}”. Formats: text, json.`);
    const { names, paths } = wordsOf(positionals, values.in);
    if (names.length < 2) return fail("Which plans? Write: rotaline compare PLAN PLAN… [PATH…]");
    const read = compiledAt(paths);
    return typeof read === "number" ? read : comparePlans(read.compiled, names, values.format);
  },
};

function comparePlans(compiled: Compiled, names: readonly string[], format: "text" | "json"): number {
  const contenders: Contender[] = [];
  for (const name of names) {
    const result = planNamed(compiled, name);
    if (typeof result === "string") return fail(result);
    const block = [...compiled.documents.values()].flatMap(({ blocks }) => blocks).find(({ plan }) => plan === result);
    const contender = block && contenderFor(block, compiled.kept);
    if (contender) contenders.push(contender);
  }
  if (new Set(contenders.map(({ days }) => days.kind)).size > 1) return fail("One of these plans is scored by time, another by reps: neither beats the other.");
  const comparison = compared(contenders);
  process.stdout.write(format === "json" ? `${JSON.stringify(comparison)}\n` : drawComparison(comparison));
  return status.good;
}
