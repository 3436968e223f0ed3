import { nearest } from "../0-base/nearest.js";
import { type Command, fail, type Open, status } from "./command.js";
import { checkCommand } from "./commands/check.js";
import { compareCommand } from "./commands/compare.js";
import { diffCommand } from "./commands/diff.js";
import { explainCommand } from "./commands/explain.js";
import { formatCommand } from "./commands/format.js";
import { openCommand } from "./commands/open.js";
import { sendCommand } from "./commands/send.js";
import { showCommand } from "./commands/show.js";
import { cardsCommand } from "./commands/cards.js";
import { tableCommand } from "./commands/table.js";
import { weekCommand } from "./commands/week.js";
import { askCommand } from "./commands/ask.js";
import { learnCommand } from "./commands/learn.js";
import { suggestCommand } from "./commands/suggest.js";
import { version } from "../../package.json";

const commands: Readonly<Record<string, Command>> = {
  check: checkCommand,
  show: showCommand,
  compare: compareCommand,
  suggest: suggestCommand,
  learn: learnCommand,
  ask: askCommand,
  format: formatCommand,
  week: weekCommand,
  cards: cardsCommand,
  send: sendCommand,
  table: tableCommand,
  diff: diffCommand,
  explain: explainCommand,
  open: openCommand,
};

function usage(): string {
  const rows = Object.entries(commands).map(([name, { about }]) => `  ${name.padEnd(8)}${about}`);
  return `rotaline: plans of partner events, checked and timed\n\n${rows.join("\n")}\n\nrotaline help COMMAND tells more; rotaline --version tells which this is.\n`;
}

/** Runs the command that the arguments name; gives the exit status. */
export async function main([name, ...args]: readonly string[], open: Open): Promise<number> {
  const asksHelp = name === undefined || name === "--help" || name === "-h" || name === "help";
  if (name === "--version" || name === "-V") return say(`rotaline ${version}\n`);
  if (asksHelp && args.length === 0) {
    say(usage());
    return name === undefined ? status.failed : status.good;
  }
  const wanted = asksHelp ? (args[0] ?? "") : name;
  const command = Object.hasOwn(commands, wanted) ? commands[wanted] : undefined;
  if (!command) {
    const [near] = nearest(wanted, Object.keys(commands));
    return fail(`There is no command “${wanted}”.${near ? ` Did you mean ${near}?` : ""}\n\n${usage()}`);
  }
  if (asksHelp || args.includes("--help") || args.includes("-h")) return say(`${command.help}\n`);
  try {
    return await command.run(args, open);
  } catch (error) {
    return fail(error instanceof Error ? error.message : String(error));
  }
}

function say(text: string): number {
  process.stdout.write(text);
  return status.good;
}
