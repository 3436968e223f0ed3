import { parseArgs } from "node:util";
import { type Command, compiledAt, fail, status, wordsOf } from "../command.js";
import { suggestedText, suggestions } from "../suggest.js";

/** Without --steps the search stops by itself. */
const longestS = 6;

export const suggestCommand: Command = {
  about: "look for plans of an event",
  help: `rotaline suggest EVENT|PLAN [PATH…] [--target SCORE] [--team TEAM] [--steps N] [--seed N] [--count N] [--risk PERCENT] [--with LINE]… [--format text|json]

Looks for ways to pair the team, to share the work out and to pass the holds round, and prints the best of each kind as
text that can be put into a document: the best that is short enough to be kept in a tired head, one with gentler first sets,
the simplest, a longer one where that gains, a bolder one with its price. Given a plan, it begins with that one; given a target, it looks for the best
chance to beat it instead of the best middle day. --risk is on how many days a miss or a dropped hold is borne. --with adds a
limit of your own, as it would stand under a plan: "rule set at most 8 reps", "pair A Ines + Bram". It stops
after 4,000 steps or six seconds; the same seed and the same --steps give the same plans, more steps better ones.
Exit status 1: no plan was found that keeps every rule and is seldom in trouble.

  rotaline suggest Breakwater notebooks/lighthouse
  rotaline suggest Steady notebooks/lighthouse --target 14:00
  rotaline suggest Breakwater notebooks/lighthouse --with "rule set at most 8 reps" --with "pair A Ines + Tariq"`,
  run: (args) => {
    const number = (usual: string) => ({ type: "string", default: usual }) as const;
    const { values, positionals } = parseArgs({
      args: [...args],
      allowPositionals: true,
      options: {
        team: { type: "string" },
        target: { type: "string" },
        in: { type: "string", multiple: true, default: [] },
        steps: { type: "string" },
        seed: number("1"),
        count: number("3"),
        risk: number("33"),
        format: number("text"),
        with: { type: "string", multiple: true, default: [] },
      },
    });
    if (values.format !== "text" && values.format !== "json") return fail(`There is no format “${values.format}”. Formats: text, json.`);
    const {
      names: [name, ...others],
      paths,
    } = wordsOf(positionals, values.in);
    if (name === undefined) return fail("Which event? Write: rotaline suggest EVENT [PATH…]");
    if (others.length > 0)
      return fail(`One event or plan at a time, and “${others[0]}” is no path. A name of several words stands in quotes.`);
    const [steps, seed, count] = [values.steps ?? "4000", values.seed, values.count].map(Number);
    const whole = (value: number | undefined): value is number => value !== undefined && Number.isInteger(value) && value > 0;
    if (!whole(steps) || !whole(seed) || !whole(count)) return fail("Steps, seed and count are whole numbers above 0.");
    const risk = Number(values.risk.replace(/\s*%$/, ""));
    if (!(risk >= 0 && risk <= 100)) return fail("A risk is a percentage of days, from 0 to 100.");
    const read = compiledAt(paths);
    if (typeof read === "number") return read;
    const live = process.stderr.isTTY;
    const result = suggestions(
      {
        name,
        target: values.target ?? null,
        team: values.team ?? null,
        steps,
        seconds: values.steps === undefined ? longestS : Number.POSITIVE_INFINITY,
        seed,
        count,
        risk: risk / 100,
        wishes: values.with.join("\n"),
      },
      read.documents,
      read.compiled,
      (done) => {
        if (live) process.stderr.write(`\r${Math.min(100, Math.round((100 * done) / steps))} %`);
      },
    );
    if (live) process.stderr.write("\r");
    if (!result.ok) return fail(result.reason);
    const { proposals, nothing, sound } = result;
    process.stdout.write(values.format === "json" ? `${JSON.stringify({ sound, nothing, proposals })}\n` : suggestedText(result));
    return result.sound ? status.good : status.findings;
  },
};
