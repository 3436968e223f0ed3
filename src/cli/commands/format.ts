import { readFileSync } from "node:fs";
import { parseArgs } from "node:util";
import { harmless } from "../../1-text/document.js";
import { format } from "../../3-plan/format.js";
import { type Command, fail, noteAll, status } from "../command.js";
import { inputPath, readNotebook } from "../notebook.js";
import { writeFile } from "../write-file.js";

export const formatCommand: Command = {
  about: "put documents into the house style",
  help: `rotaline format PATH… [--check]

Rewrites the .rota documents at the paths: two spaces an indent, tables in columns. With - it reads standard input and
writes standard output. With --check nothing is written; the exit status is 1 where a document would change.

  rotaline format notebooks/lighthouse --check`,
  run: (args) => {
    const { values, positionals } = parseArgs({
      args: [...args],
      allowPositionals: true,
      options: { check: { type: "boolean", default: false } },
    });
    if (positionals.length === 0) return fail("Which documents? Write: rotaline format PATH…");
    const found = readNotebook(positionals);
    if (!found.ok) return fail(found.reason);
    noteAll(found.notes);
    const input = positionals.includes(inputPath) ? found.documents[0] : undefined;
    if (input) {
      process.stdout.write(format(input.text));
      return status.good;
    }
    const others = [...found.files].filter(([path]) => !path.endsWith(".rota")).map(([path]) => path);
    if (others.length > 0) return fail(`${others.join(", ")}: only .rota documents are rewritten.`);
    return formatFiles(found.files, values.check);
  },
};

function formatFiles(files: ReadonlyMap<string, string>, onlyCheck: boolean): number {
  const changed = [...files].filter(([, file]) => {
    const text = readFileSync(file, "utf8");
    const formatted = format(text);
    if (formatted !== text && !onlyCheck) writeFile(file, formatted);
    return formatted !== text;
  });
  for (const [shown] of changed) process.stdout.write(`${onlyCheck ? "would change" : "formatted"} ${harmless(shown)}\n`);
  return onlyCheck && changed.length > 0 ? status.findings : status.good;
}
