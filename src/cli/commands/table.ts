import { parseArgs } from "node:util";
import { linesOf } from "../../1-text/document.js";
import { abilityRows } from "../../3-plan/ability-table.js";
import type { AnsweredBlock } from "../../7-view/answered-block.js";
import { columns, fieldsOf, tabSeparated } from "../../7-view/columns.js";
import { csvOf } from "../../7-view/table-text.js";
import { type Command, compiledAt, fail, status, wordsOf } from "../command.js";

export const tableCommand: Command = {
  about: "a plan's lines or the abilities as a table",
  help: `rotaline table PLAN|ability [PATH…] [--csv]

A plan's lines with from, to, done, left, least, chance and passes, or the tests of the team, for a spreadsheet: with tabs
between, or as --csv (RFC 4180). What the abilities give can be pasted into the page again, and becomes a block.

  rotaline table Steady notebooks/lighthouse --csv > steady.csv
  rotaline table ability notebooks/lighthouse --csv > tests.csv`,
  run: (args) => {
    const { values, positionals } = parseArgs({
      args: [...args],
      allowPositionals: true,
      options: { csv: { type: "boolean", default: false }, in: { type: "string", multiple: true, default: [] } },
    });
    const {
      names: [name, ...others],
      paths,
    } = wordsOf(positionals, values.in);
    if (name === undefined) return fail("Of what? Write: rotaline table PLAN|ability [PATH…]");
    if (others.length > 0)
      return fail(`One plan at a time, and “${others[0]}” is no path. A plan's name of several words stands in quotes.`);
    const read = compiledAt(paths);
    if (typeof read === "number") return read;
    const blocks = [...read.compiled.documents.values()].flatMap((document) => document.blocks);
    const plan = blocks.find(({ plan: found }) => found?.resolved.line.name.text === name);
    const rows =
      name === "ability"
        ? blocks.flatMap(({ block }) => (block.read.line.kind === "ability" ? abilityRows(block.text) : []))
        : plan
          ? planRows(plan)
          : [];
    if (rows.length === 0) return fail(name === "ability" ? "There is no ability table here." : `There is no plan “${name}”.`);
    process.stdout.write(values.csv ? csvOf(rows) : `${tabSeparated(rows)}\n`);
    return status.good;
  },
};

function planRows({ block: { text }, answers }: AnsweredBlock): readonly (readonly string[])[] {
  const lines = linesOf(text).filter((line, at, all) => line !== "" || at < all.length - 1);
  return [
    ["line", ...columns.plan],
    ...lines.map((line, at) => {
      const found = answers.find((answer) => answer.line === at);
      return [line, ...(found?.row ? fieldsOf(found.row) : found ? [found.shown] : [])];
    }),
  ];
}
