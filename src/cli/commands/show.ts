import { parseArgs } from "node:util";
import { scoreWords } from "../../7-view/block-answers.js";
import { moversOf, untestedIn } from "../../4-timeline/sensitivity.js";
import { drawLanes } from "../../7-view/lanes.js";
import { spreadWords } from "../../7-view/spread-words.js";
import { hangsOn, moverLines } from "../../7-view/why-words.js";
import { type Command, compiledAt, fail, planByName, status, wordsOf } from "../command.js";

export const showCommand: Command = {
  about: "draw a plan's lanes",
  help: `rotaline show PLAN [PATH…] [--width COLUMNS] [--why]

Draws who works, holds and rests over the time of a plan. A plan's name of several words stands in quotes. --why adds what
moves its score most: of the tests, the recoveries that nobody tested, and what is assumed, each within its own uncertainty.

  rotaline show Steady notebooks/lighthouse`,
  run: (args) => {
    const { values, positionals } = parseArgs({
      args: [...args],
      allowPositionals: true,
      options: {
        width: { type: "string", default: "72" },
        why: { type: "boolean", default: false },
        in: { type: "string", multiple: true, default: [] },
      },
    });
    const {
      names: [name, ...others],
      paths,
    } = wordsOf(positionals, values.in);
    const width = Number(values.width);
    if (name === undefined) return fail("Which plan? Write: rotaline show PLAN [PATH…]");
    if (others.length > 0)
      return fail(`One plan at a time, and “${others[0]}” is no path. A plan's name of several words stands in quotes.`);
    if (!Number.isInteger(width) || width < 10 || width > 1000) return fail("A width is a whole number from 10 to 1000.");
    const read = compiledAt(paths);
    if (typeof read === "number") return read;
    const plan = planByName(read.compiled, name);
    if (typeof plan === "string") return fail(plan);
    if (!plan.timeline) return status.failed;
    const days = read.compiled.daysOf(plan);
    const spread = days ? `${spreadWords(days)}\n` : "";
    process.stdout.write(
      `${name} for ${plan.resolved.line.event.text}: ${scoreWords(plan.timeline.score)} on paper\n${spread}\n${drawLanes(plan.timeline, width)}`,
    );
    const spec = plan.resolved.plan;
    const {
      abilities,
      world: { constants },
    } = read.compiled.kept;
    const hanging = spec && hangsOn(untestedIn(spec, abilities, constants), spec.event.score);
    if (hanging) process.stdout.write(`\n${hanging}\n`);
    if (values.why && spec)
      process.stdout.write(
        `\nWhat moves the score most\n${moverLines(moversOf(spec, abilities, constants), spec.event.score)
          .map((line) => `  ${line}\n`)
          .join("")}`,
      );
    return status.good;
  },
};
