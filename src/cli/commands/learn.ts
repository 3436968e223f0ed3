import { parseArgs } from "node:util";
import { learntFrom } from "../../7-view/learnt.js";
import { learntTable } from "../../7-view/learnt-table.js";
import { type Command, compiledAt, fail, status, wordsOf } from "../command.js";

export const learnCommand: Command = {
  about: "what the logs say of abilities, as a table to accept",
  help: `rotaline learn [PATH…] [--athlete NAME] [--format text|json]

Works out from the notebook's logs how strong everybody was, and prints it as an ability table dated as the newest log: from → to,
how sure, and why, as comments above it. Nothing is written: put the table, or some of its rows, into a document. What is tested
later than a log, or accepted from it, is left alone. An older log counts less.

  rotaline learn notebooks/lighthouse
  rotaline learn notebooks/lighthouse --athlete Marta`,
  run: (args) => {
    const { values, positionals } = parseArgs({
      args: [...args],
      allowPositionals: true,
      options: {
        athlete: { type: "string" },
        format: { type: "string", default: "text" },
        in: { type: "string", multiple: true, default: [] },
      },
    });
    if (values.format !== "text" && values.format !== "json") return fail(`There is no format “${values.format}”. Formats: text, json.`);
    const { names, paths } = wordsOf(positionals, values.in);
    const read = compiledAt(names.length > 0 ? [...names, ...paths.filter((path) => path !== ".")] : paths);
    if (typeof read === "number") return read;
    const page = learntFrom(read.compiled);
    const rows = page.rows.filter(({ athlete }) => values.athlete === undefined || athlete === values.athlete);
    if (values.format === "json") process.stdout.write(`${JSON.stringify({ ...page, rows })}\n`);
    else
      process.stdout.write(
        `${[...page.notes, ...rows.map(({ words }) => words)].map((line) => `// ${line}\n`).join("")}${rows.length > 0 ? learntTable(rows, page.date) : ""}`,
      );
    return status.good;
  },
};
