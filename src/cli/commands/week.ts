import { parseArgs } from "node:util";
import { nearest } from "../../0-base/nearest.js";
import { lineAt, lineStarts } from "../../1-text/document.js";
import type { Document } from "../../1-text/document.js";
import type { Compiled } from "../../compile.js";
import { weekCalendar } from "../../7-view/week-calendar.js";
import { weekIdeas, weeksIn } from "../../7-view/week-ideas.js";
import { secondTries, secondTryAdvice } from "../../7-view/second-try.js";
import { drawWeek } from "../../7-view/week-lanes.js";
import { weekCaution } from "../../7-view/cautions.js";
import { weekPicture } from "../../7-view/week-picture.js";
import { type Command, compiledAt, fail, status, wordsOf } from "../command.js";
import { writeFile } from "../write-file.js";

export const weekCommand: Command = {
  about: "work a week out, find its best order, write its calendar",
  help: `rotaline week [WEEK] [PATH…] [--order] [--again] [--calendar FILE] [--format text|json]

Says what each event comes to with what the days before have left, and draws what the team has back of each part of the body.
--order looks for the best order that the week's limits allow, and says why; --again looks for a plan that makes second tries pay; --calendar writes an iCalendar file (- for standard
output). Exit status 1 where the week breaks a limit, or where no order keeps them all.

  rotaline week notebooks/lighthouse
  rotaline week "Lighthouse Three" notebooks/lighthouse --order
  rotaline week notebooks/lighthouse --calendar week.ics`,
  run: (args) => {
    const { values, positionals } = parseArgs({
      args: [...args],
      allowPositionals: true,
      options: {
        order: { type: "boolean", default: false },
        again: { type: "boolean", default: false },
        calendar: { type: "string" },
        format: { type: "string", default: "text" },
        in: { type: "string", multiple: true, default: [] },
      },
    });
    if (values.format !== "text" && values.format !== "json") return fail(`There is no format “${values.format}”. Formats: text, json.`);
    const {
      names: [name, ...others],
      paths,
    } = wordsOf(positionals, values.in);
    if (others.length > 0)
      return fail(`One week at a time, and “${others[0]}” is no path. A week's name of several words stands in quotes.`);
    const read = compiledAt(paths);
    if (typeof read === "number") return read;
    const found = weekNamed(read.compiled, name);
    if (typeof found === "string") return fail(found);
    if (values.calendar !== undefined) return writeCalendar(found, values.calendar);
    if (values.order) return showOrders(found, read, values.format);
    return showWeek(found, read.compiled, values.format, values.again);
  },
};

type FoundWeek = ReturnType<typeof weeksIn>[number];

/** The week of that name; the first without one; or why there is none. */
function weekNamed(compiled: Compiled, name: string | undefined): FoundWeek | string {
  const weeks = weeksIn(compiled);
  const names = weeks.map(({ line }) => line.name.text);
  const found = name === undefined ? weeks[0] : weeks.find(({ line }) => line.name.text === name);
  if (found) return found;
  if (names.length === 0) return "There is no week here yet. Write one: week NAME, then a day a line.";
  return `There is no week “${name ?? ""}”. Weeks here: ${(name !== undefined && nearest(name, names).length > 0 ? nearest(name, names) : names).join(", ")}.`;
}

function showWeek({ block, text, week }: FoundWeek, compiled: Compiled, format: string, again: boolean): number {
  const { kept } = compiled;
  const picture = weekPicture(week, kept.world.constants);
  const errors = block.findings.filter(({ severity }) => severity === "error");
  if (format === "json") {
    process.stdout.write(
      `${JSON.stringify({ name: week.spec.name, picture, lines: block.answers.map(({ line, shown, values }) => ({ line: block.block.firstLine + line + 1, shown, values })) })}\n`,
    );
    return errors.length > 0 ? status.findings : status.good;
  }
  const answers = new Map(block.answers.map(({ line, shown }) => [line, shown] as const));
  const lines = text.trimEnd().split("\n");
  const width = Math.max(...lines.map((line) => line.length));
  process.stdout.write(
    lines.map((line, at) => `${line.padEnd(answers.has(at) ? width : 0)}  ${answers.get(at) ?? ""}`.trimEnd()).join("\n") + "\n",
  );
  for (const { severity, message } of block.findings) process.stdout.write(`${severity}: ${message}\n`);
  const advice = again
    ? secondTryAdvice(week, compiled)
    : [...secondTries(week, compiled)].map(
        ([
          {
            session: { event },
          },
          words,
        ]) => `The second try of ${event} ${words}.`,
      );
  if (advice.length > 0) process.stdout.write(`\n${advice.join("\n")}\n`);
  if (picture) process.stdout.write(`\n${drawWeek(picture)}\n${picture.zoneWords}\n${weekCaution}\n`);
  return errors.length > 0 ? status.findings : status.good;
}

function showOrders(
  found: FoundWeek,
  { compiled, documents }: { readonly compiled: Compiled; readonly documents: readonly Document[] },
  format: string,
): number {
  const search = weekIdeas(found, compiled.kept, documents);
  let step = search.next();
  while (!step.done) {
    if (process.stderr.isTTY) process.stderr.write(`\r${step.value.steps.toLocaleString("en")} places tried…`);
    step = search.next();
  }
  if (process.stderr.isTTY) process.stderr.write("\r\u001b[K");
  const { ideas, faults } = step.value;
  if (format === "json") process.stdout.write(`${JSON.stringify(step.value)}\n`);
  else {
    for (const fault of faults) process.stdout.write(`// ${fault}\n`);
    for (const { kind, lost, days, reasons, text } of ideas) {
      process.stdout.write(
        `// ${kind}: ${(100 * lost).toFixed(1)} % given away in all\n${reasons.map((reason) => `// ${reason}\n`).join("")}${(text ?? days.map((day) => `//   ${day}`).join("\n")).trimEnd()}\n\n`,
      );
    }
  }
  return ideas.some(({ kind }) => kind !== "as it stands") ? status.good : status.findings;
}

function writeCalendar({ block, text, week }: FoundWeek, path: string): number {
  const starts = lineStarts(text);
  const calendar = weekCalendar(week, block.answers, (offset) => lineAt(starts, offset), { atS: Date.now() / 1000 });
  if (path === "-") process.stdout.write(calendar);
  else writeFile(path, calendar);
  return status.good;
}
