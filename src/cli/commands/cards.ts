import { parseArgs } from "node:util";
import { cardPage } from "../../7-view/card-page.js";
import { cardText, wallText } from "../../7-view/card-text.js";
import { cardsOf, wallOf } from "../../7-view/cards.js";
import { simplerWords } from "../../7-view/simpler.js";
import { type Command, compiledAt, fail, planByName, status, wordsOf } from "../command.js";

const forms = ["text", "markdown", "html"] as const;

export const cardsCommand: Command = {
  about: "a card for each athlete, and a sheet for the wall",
  help: `rotaline cards PLAN [PATH…] [--text|--markdown|--html] [--for ATHLETE] [--spelt]

Each athlete's own turns, holds and rests in order, when the change comes and who comes after, where the team should stand,
what counts; and a table of the whole plan for the wall. Loops are said as loops, with --spelt turn by turn. Where somebody
would have to remember more than nine things, the nearest simpler plan is named. --html is one page that needs nothing else: an A6 page an athlete.

  rotaline cards Steady notebooks/lighthouse
  rotaline cards Steady notebooks/lighthouse --for Ines
  rotaline cards Steady notebooks/lighthouse --html > cards.html`,
  run: (args) => {
    const { values, positionals } = parseArgs({
      args: [...args],
      allowPositionals: true,
      options: {
        text: { type: "boolean", default: false },
        markdown: { type: "boolean", default: false },
        html: { type: "boolean", default: false },
        spelt: { type: "boolean", default: false },
        for: { type: "string" },
        in: { type: "string", multiple: true, default: [] },
      },
    });
    const asked = forms.filter((form) => values[form]);
    if (asked.length > 1) return fail(`One form at a time, not ${asked.map((form) => `--${form}`).join(" and ")}.`);
    const {
      names: [name, ...others],
      paths,
    } = wordsOf(positionals, values.in);
    if (name === undefined) return fail("Which plan? Write: rotaline cards PLAN [PATH…]");
    if (others.length > 0)
      return fail(`One plan at a time, and “${others[0]}” is no path. A plan's name of several words stands in quotes.`);
    const read = compiledAt(paths);
    if (typeof read === "number") return read;
    const result = planByName(read.compiled, name);
    if (typeof result === "string") return fail(result);
    const plan = result.resolved.plan;
    if (!plan || !result.timeline) return status.failed;
    const all = cardsOf(plan, result.timeline, values.spelt);
    const cards = values.for === undefined ? all : all.filter(({ athlete }) => athlete === values.for);
    if (cards.length === 0)
      return fail(
        values.for === undefined
          ? `Nobody does anything in ${name}.`
          : `${values.for} has nothing to do in ${name}. Athletes there: ${all.map(({ athlete }) => athlete).join(", ")}.`,
      );
    const { abilities, world } = read.compiled.kept;
    const simpler = simplerWords(plan, abilities, world);
    const wall = wallOf(plan, result.timeline);
    const markdown = asked[0] === "markdown";
    if (simpler !== null) process.stderr.write(`${simpler}\n`);
    if (asked[0] === "html") process.stdout.write(cardPage(cards, wall));
    else
      process.stdout.write(
        [...cards.map((card) => cardText(card, markdown)), ...(values.for === undefined ? [wallText(wall, markdown)] : [])].join("\n"),
      );
    return status.good;
  },
};
