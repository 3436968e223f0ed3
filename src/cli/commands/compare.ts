import { parseArgs } from "node:util";
import { drawsToCompare } from "../../4-timeline/spread.js";
import { breakEvensOf, noRepBreakEven } from "../../4-timeline/sensitivity.js";
import { type WhatTurns, whatTurns } from "../../7-view/why-words.js";
import { compared, type Contender, contenderFor, drawComparison } from "../../7-view/comparison.js";
import type { Compiled } from "../../compile.js";
import { type Command, compiledAt, fail, planByName, status, wordsOf } from "../command.js";

export const compareCommand: Command = {
  about: "set plans side by side",
  // Made when it is asked for: the platform's way of writing numbers takes long to load.
  get help() {
    return `rotaline compare PLAN PLAN… [PATH…] [--format text|json] [--why]

Runs each plan on the same ${drawsToCompare.toLocaleString("en")} days and says how the scores spread, how often one beats the other, and what
differs by stage and athlete. --why adds what would have to be true for the second of two to be the better one.
Without a path: the notebook here.

  rotaline compare Steady Bold notebooks/lighthouse`;
  },
  run: (args) => {
    const { values, positionals } = parseArgs({
      args: [...args],
      allowPositionals: true,
      options: {
        in: { type: "string", multiple: true, default: [] },
        format: { type: "string", default: "text" },
        why: { type: "boolean", default: false },
      },
    });
    if (values.format !== "text" && values.format !== "json") return fail(`There is no format “${values.format}”. Formats: text, json.`);
    const { names, paths } = wordsOf(positionals, values.in);
    if (names.length < 2) return fail("Which plans? Write: rotaline compare PLAN PLAN… [PATH…]");
    const read = compiledAt(paths);
    return typeof read === "number" ? read : comparePlans(read.compiled, names, values.format, values.why);
  },
};

function comparePlans(compiled: Compiled, names: readonly string[], format: "text" | "json", asked: boolean): number {
  const blocks: Parameters<typeof contenderFor>[0][] = [];
  for (const name of names) {
    const result = planByName(compiled, name);
    if (typeof result === "string") return fail(result);
    const block = [...compiled.documents.values()].flatMap((document) => document.blocks).find(({ plan }) => plan === result);
    if (block && blocks.includes(block)) return fail(`${name} against itself is even. Name another plan.`);
    if (block) blocks.push(block);
  }
  // Before any day is drawn: ten thousand take seconds.
  if (new Set(blocks.flatMap(({ plan }) => (plan?.timeline ? [plan.timeline.score.kind] : []))).size > 1)
    return fail("One of these plans is scored by time, another by reps: neither beats the other.");
  const contenders = blocks.flatMap((block): readonly Contender[] => {
    const contender = contenderFor(block, compiled.kept);
    return contender ? [contender] : [];
  });
  const comparison = compared(contenders);
  const [first, second] = contenders.map(({ result }) => result.resolved.plan);
  const {
    abilities,
    world: { constants },
  } = compiled.kept;
  const why =
    format === "json" && asked && first && second
      ? { breakEvens: [...breakEvensOf(first, second, abilities, constants)], noReps: noRepBreakEven(first, second, abilities, constants) }
      : {};
  if (format === "json") process.stdout.write(`${JSON.stringify({ ...comparison, ...why })}\n`);
  else
    process.stdout.write(
      drawComparison(comparison) +
        (asked && first && second ? whyText(whatTurns(first, second, (comparison.beats[0]?.[1] ?? 0) >= 0.5, compiled.kept)) : ""),
    );
  return status.good;
}

function whyText({ follower, lines }: WhatTurns): string {
  return `\nWhat would have to be true for ${follower} to win\n${lines.map((line) => `  ${line}\n`).join("")}`;
}
