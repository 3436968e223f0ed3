import { readFileSync, writeFileSync } from "node:fs";
import { parseArgs } from "node:util";
import { compile, type Compiled } from "../compile.js";
import { format } from "../3-plan/format.js";
import { nearest } from "../0-base/nearest.js";
import { scoreWords } from "../7-view/block-answers.js";
import { compared, type Contender, contenderFor, drawComparison } from "../7-view/comparison.js";
import type { Paint } from "../7-view/excerpt.js";
import { drawLanes } from "../7-view/lanes.js";
import { spreadWords } from "../7-view/spread-words.js";
import { explainRule } from "../7-view/rule-page.js";
import type { PlanResult } from "../4-timeline/evaluate.js";
import { drawsToCompare } from "../4-timeline/spread.js";
import type { Document } from "../1-text/document.js";
import { rules } from "../5-findings/registry.js";
import { check } from "./check.js";
import { suggestions } from "./suggest.js";
import { fixAll } from "./fix.js";
import { readNotebook } from "./notebook.js";
import { paintFor } from "./terminal.js";

/** Exit statuses: nothing at error; some; the program could not do what was asked. */
const status = { good: 0, findings: 1, failed: 2 } as const;

/** Serves a notebook, the demo's without a path, until the process is stopped; gives the reason where it cannot. */
type Open = (path: string | null, port: number, paint: Paint) => Promise<string | null>;

interface Command {
  readonly about: string;
  readonly help: string;
  readonly run: (args: readonly string[], open: Open) => number | Promise<number>;
}

const commands: Readonly<Record<string, Command>> = {
  check: {
    about: "check a folder or files of plans",
    help: `rotaline check PATH… [--format text|json|sarif] [--fix]

Reads every .rota document at the paths as one notebook and says what is wrong in it, then what each plan comes to.
With --fix it first writes every fix that settles its finding and makes no new error; a fix with two readings is yours.

  rotaline check notebooks/lighthouse
  rotaline check plan.rota --format json
  rotaline check plan.rota --fix`,
    run: (args) => {
      const { values, positionals } = parseArgs({ args: [...args], allowPositionals: true, options: { format: { type: "string", default: "text" }, fix: { type: "boolean", default: false } } });
      if (values.format !== "text" && values.format !== "json" && values.format !== "sarif") return fail(`There is no format “${values.format}”. Formats: text, json, sarif.`);
      const found = readNotebook(positionals.length > 0 ? positionals : ["."]);
      if (!found.ok) return fail(found.reason);
      const documents = values.fix ? writeFixes(found.documents, found.files) : found.documents;
      const { output, errors } = check(documents, values.format, paintFor(process.stdout));
      process.stdout.write(output);
      return errors ? status.findings : status.good;
    },
  },
  show: {
    about: "draw a plan's lanes",
    help: `rotaline show PLAN [PATH…] [--width COLUMNS]

Draws who works, holds and rests over the time of a plan. A plan's name of several words stands in quotes.

  rotaline show Steady notebooks/lighthouse`,
    run: (args) => {
      const { values, positionals } = parseArgs({ args: [...args], allowPositionals: true, options: { width: { type: "string", default: "72" } } });
      const [name, ...paths] = positionals;
      const width = Number(values.width);
      if (name === undefined) return fail("Which plan? Write: rotaline show PLAN [PATH…]");
      if (!Number.isInteger(width) || width < 10 || width > 1000) return fail("A width is a whole number from 10 to 1000.");
      const found = readNotebook(paths.length > 0 ? paths : ["."]);
      if (!found.ok) return fail(found.reason);
      const compiled = compile(found.documents);
      const plan = planNamed(compiled, name);
      if (typeof plan === "string") return fail(plan);
      if (!plan.timeline) return status.failed;
      const days = compiled.daysOf(plan);
      process.stdout.write(`${name} for ${plan.resolved.line.event.text}: ${scoreWords(plan.timeline.score)}\n${days ? `${spreadWords(days)}\n` : ""}\n${drawLanes(plan.timeline, width)}`);
      return status.good;
    },
  },
  compare: {
    about: "set plans side by side",
    // Made when it is asked for: the platform's way of writing numbers takes long to load.
    get help() { return `rotaline compare PLAN PLAN… [--in PATH] [--format text|json]

Runs each plan on the same ${drawsToCompare.toLocaleString("en")} days and says how the scores spread, how often one beats the other, and what
differs by stage and athlete. --in names a folder or a file, and may stand more than once; without it: here.

  rotaline compare Steady Bold --in notebooks/lighthouse`; },
    run: (args) => {
      const { values, positionals } = parseArgs({ args: [...args], allowPositionals: true, options: { in: { type: "string", multiple: true, default: ["."] }, format: { type: "string", default: "text" } } });
      if (values.format !== "text" && values.format !== "json") return fail(`There is no format “${values.format}”. Formats: text, json.`);
      if (positionals.length < 2) return fail("Which plans? Write: rotaline compare PLAN PLAN… [--in PATH]");
      const found = readNotebook(values.in);
      return found.ok ? comparePlans(compile(found.documents), positionals, values.format) : fail(found.reason);
    },
  },
  suggest: {
    about: "look for plans of an event",
    help: `rotaline suggest EVENT|PLAN [--target SCORE] [--team TEAM] [--in PATH] [--steps N] [--seed N] [--count N]

Looks for ways to pair the team, to share the work out and to pass the holds round, and prints the best of each kind as
text that can be put into a document. Given a plan, it begins with that one; given a target, it looks for the best chance
to beat it instead of the best expected score. The same seed and the same steps give the same plans; more steps, better ones.

  rotaline suggest Breakwater --in notebooks/lighthouse
  rotaline suggest Steady --target 14:00 --in notebooks/lighthouse`,
    run: (args) => {
      const number = (usual: string) => ({ type: "string", default: usual }) as const;
      const { values, positionals: [name] } = parseArgs({
        args: [...args], allowPositionals: true,
        options: { team: { type: "string" }, target: { type: "string" }, in: { type: "string", multiple: true, default: ["."] }, steps: number("4000"), seed: number("1"), count: number("2") },
      });
      if (name === undefined) return fail("Which event? Write: rotaline suggest EVENT [--in PATH]");
      const [steps, seed, count] = [values.steps, values.seed, values.count].map(Number);
      const whole = (value: number | undefined): value is number => value !== undefined && Number.isInteger(value) && value > 0;
      if (!whole(steps) || !whole(seed) || !whole(count)) return fail("Steps, seed and count are whole numbers above 0.");
      const found = readNotebook(values.in);
      if (!found.ok) return fail(found.reason);
      const live = process.stderr.isTTY;
      const result = suggestions({ name, target: values.target ?? null, team: values.team ?? null, steps, seed, count }, found.documents, compile(found.documents), ({ steps: done }) => {
        if (live) process.stderr.write(`\r${Math.min(100, Math.round((100 * done) / steps))} %`);
      });
      if (live) process.stderr.write("\r");
      if (!result.ok) return fail(result.reason);
      process.stdout.write(result.output);
      return status.good;
    },
  },
  format: {
    about: "put documents into the house style",
    help: `rotaline format PATH… [--check]

Rewrites the documents at the paths: two spaces an indent, tables in columns. With --check nothing is written;
the exit status is 1 where a document would change.

  rotaline format notebooks/lighthouse --check`,
    run: (args) => {
      const { values, positionals } = parseArgs({ args: [...args], allowPositionals: true, options: { check: { type: "boolean", default: false } } });
      if (positionals.length === 0) return fail("Which documents? Write: rotaline format PATH…");
      const found = readNotebook(positionals);
      if (!found.ok) return fail(found.reason);
      return formatFiles(found.files, values.check);
    },
  },
  explain: {
    about: "explain a rule, or list them",
    help: `rotaline explain [RULE]

Says what a rule wants, why, where it comes from, with a bad and a good example. Without a rule: all of them.

  rotaline explain hold-turn-missed`,
    run: ([id]) => {
      const rule = rules.find((one) => one.id === id);
      if (id !== undefined && !rule) return fail(`There is no rule “${id}”. ${nearest(id, rules.map((one) => one.id)).length > 0 ? `Near: ${nearest(id, rules.map((one) => one.id)).join(", ")}.` : "rotaline explain lists them."}`);
      process.stdout.write(rule ? explainRule(rule) : rules.map((one) => `${one.id.padEnd(22)}${one.title}\n`).join(""));
      return status.good;
    },
  },
  open: {
    about: "serve a notebook to the browser",
    help: `rotaline open [FOLDER] [--port PORT]

Checks the notebook, then serves it to this machine's browser. Without a folder: the demo notebook.

  rotaline open notebooks/lighthouse`,
    run: async (args, openNotebook) => {
      const { values, positionals } = parseArgs({ args: [...args], allowPositionals: true, options: { port: { type: "string", default: "4270" } } });
      const port = Number(values.port);
      if (!Number.isInteger(port) || port < 0 || port > 65_535) return fail("A port is a whole number from 0 to 65535.");
      const reason = await openNotebook(positionals[0] ?? null, port, paintFor(process.stdout));
      return reason === null ? status.good : fail(reason);
    },
  },
};

/** A plan by name, or why it cannot be shown. */
function planNamed(compiled: Compiled, name: string): PlanResult | string {
  const plans = [...compiled.documents.values()].flatMap(({ blocks }) => blocks.flatMap(({ plan }) => (plan ? [plan] : [])));
  const found = plans.find(({ resolved }) => resolved.line.name.text === name);
  if (found?.timeline) return found;
  if (found) return `Plan ${name} has no timeline yet: rotaline check says why.`;
  const names = plans.map(({ resolved }) => resolved.line.name.text);
  const near = nearest(name, names);
  return `There is no plan “${name}”. ${names.length > 0 ? `Plans here: ${(near.length > 0 ? near : names).join(", ")}.` : ""}`;
}

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

/** Writes the documents that fixes changed; only those the paths name. */
function writeFixes(documents: readonly Document[], files: ReadonlyMap<string, string>): readonly Document[] {
  const { documents: fixed, applied } = fixAll(documents);
  for (const [file, shown] of files) {
    const text = fixed.find(({ path }) => path === shown)?.text;
    if (text !== undefined && text !== documents.find(({ path }) => path === shown)?.text) writeFileSync(file, text);
  }
  process.stderr.write(`${applied} fix${applied === 1 ? "" : "es"} applied\n`);
  return fixed;
}

function formatFiles(files: ReadonlyMap<string, string>, onlyCheck: boolean): number {
  const changed = [...files].filter(([file]) => {
    const text = readFileSync(file, "utf8");
    const formatted = format(text);
    if (formatted !== text && !onlyCheck) writeFileSync(file, formatted);
    return formatted !== text;
  });
  for (const [, shown] of changed) process.stdout.write(`${onlyCheck ? "would change" : "formatted"} ${shown}\n`);
  return onlyCheck && changed.length > 0 ? status.findings : status.good;
}

function fail(reason: string): number {
  process.stderr.write(`rotaline: ${reason}\n`);
  return status.failed;
}

function usage(): string {
  const rows = Object.entries(commands).map(([name, { about }]) => `  ${name.padEnd(8)}${about}`);
  return `rotaline: plans of partner events, checked and timed\n\n${rows.join("\n")}\n\nrotaline COMMAND --help tells more.\n`;
}

/** Runs the command that the arguments name; gives the exit status. */
export async function main([name, ...args]: readonly string[], open: Open): Promise<number> {
  if (name === undefined || name === "--help" || name === "-h") {
    process.stdout.write(usage());
    return name === undefined ? status.failed : status.good;
  }
  const command = Object.hasOwn(commands, name) ? commands[name] : undefined;
  if (!command) {
    const [near] = nearest(name, Object.keys(commands));
    return fail(`There is no command “${name}”.${near ? ` Did you mean ${near}?` : ""}\n\n${usage()}`);
  }
  if (args.includes("--help") || args.includes("-h")) {
    process.stdout.write(`${command.help}\n`);
    return status.good;
  }
  try {
    return await command.run(args, open);
  } catch (error) {
    return fail(error instanceof Error ? error.message : String(error));
  }
}
