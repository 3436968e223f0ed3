import { parseArgs } from "node:util";
import { changeLines, planChanges } from "../../7-view/plan-changes.js";
import { type Command, compiledAt, fail, status } from "../command.js";

export const diffCommand: Command = {
  about: "what a change of text does to the plans",
  help: `rotaline diff OLD NEW [--format text|json]

OLD and NEW are two versions of a notebook, or of a document: folders or files. Says of each plan that changes its score on
the middle day with the range of eight days of ten, on how many of the same days the new one is better, who does more or
less, which findings are new and which are settled. Ends with 1 where there is a new error.

  rotaline diff last-week/ notebooks/lighthouse`,
  run: (args) => {
    const { values, positionals } = parseArgs({
      args: [...args],
      allowPositionals: true,
      options: { format: { type: "string", default: "text" } },
    });
    const [old, now, ...others] = positionals;
    if (old === undefined || now === undefined || others.length > 0) return fail("Two versions, please. Write: rotaline diff OLD NEW");
    if (values.format !== "text" && values.format !== "json") return fail(`There is no format “${values.format}”. Write text or json.`);
    const before = compiledAt([old]);
    if (typeof before === "number") return before;
    const after = compiledAt([now]);
    if (typeof after === "number") return after;
    const changes = planChanges(before.compiled, after.compiled);
    if (values.format === "json") process.stdout.write(`${JSON.stringify({ version: 1, plans: changes }, null, 2)}\n`);
    else process.stdout.write(changes.length === 0 ? "No plan comes to anything else.\n" : `${changes.flatMap(changeLines).join("\n")}\n`);
    const errors = (some: (typeof changes)[number]["after"]): readonly string[] =>
      (some?.findings ?? []).filter(({ severity }) => severity === "error").map(({ message }) => message);
    return changes.some(({ before: had, after: has }) => errors(has).some((message) => !errors(had).includes(message)))
      ? status.findings
      : status.good;
  },
};
