import { parseArgs } from "node:util";
import { worthAsking } from "../../4-timeline/worth-asking.js";
import { askLines } from "../../7-view/why-words.js";
import { type Command, compiledAt, fail, planByName, status, wordsOf } from "../command.js";

export const askCommand: Command = {
  about: "which test would narrow a plan's score most",
  help: `rotaline ask PLAN [PATH…]

Says which ability, tested once more before the event, would narrow the spread of the plan's score most, and by how much.

  rotaline ask Steady notebooks/lighthouse`,
  run: (args) => {
    const { values, positionals } = parseArgs({
      args: [...args],
      allowPositionals: true,
      options: { in: { type: "string", multiple: true, default: [] } },
    });
    const {
      names: [name, ...others],
      paths,
    } = wordsOf(positionals, values.in);
    if (name === undefined) return fail("Which plan? Write: rotaline ask PLAN [PATH…]");
    if (others.length > 0)
      return fail(`One plan at a time, and “${others[0]}” is no path. A plan's name of several words stands in quotes.`);
    const read = compiledAt(paths);
    if (typeof read === "number") return read;
    const result = planByName(read.compiled, name);
    if (typeof result === "string") return fail(result);
    const plan = result.resolved.plan;
    if (!plan || !result.timeline) return fail(`${name} has no timeline: put right what is wrong with it first.`);
    const {
      abilities,
      world: { constants },
    } = read.compiled.kept;
    const lines = askLines(worthAsking(plan, abilities, constants), plan.event.score);
    process.stdout.write(
      lines.length > 0 ? `${lines.join("\n")}\n` : "No test of one ability would narrow this plan's score by a second or half a rep.\n",
    );
    return status.good;
  },
};
