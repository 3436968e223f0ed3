import { parseArgs } from "node:util";
import type { Document } from "../../1-text/document.js";
import { counted } from "../../0-base/quantity.js";
import { check } from "../check.js";
import { type Command, fail, noteAll, shownSafely, status, wordsOf } from "../command.js";
import { fixAll } from "../fix.js";
import { inputPath, readNotebook } from "../notebook.js";
import { paintFor } from "../terminal.js";
import { writeFile } from "../write-file.js";

export const checkCommand: Command = {
  about: "check a folder or files of plans",
  help: `rotaline check PATH… [--format text|json|sarif] [--full] [--fix]

Reads every .rota document at the paths as one notebook and says what each plan comes to, then what is wrong: errors first,
what repeats once, the reason of each rule at the end. --full shows every finding with its line and its reason. - is
standard input. With --fix it first writes every fix that settles its finding, makes no new error and makes no plan slower or
likelier to miss; a fix with two readings is yours.

  rotaline check notebooks/lighthouse
  rotaline check plan.rota --format json
  rotaline check plan.rota --fix`,
  run: (args) => {
    const { values, positionals } = parseArgs({
      args: [...args],
      allowPositionals: true,
      options: {
        format: { type: "string", default: "text" },
        full: { type: "boolean", default: false },
        fix: { type: "boolean", default: false },
        in: { type: "string", multiple: true, default: [] },
      },
    });
    const { format } = values;
    if (format !== "text" && format !== "json" && format !== "sarif")
      return fail(`There is no format “${format}”. Formats: text, json, sarif.`);
    const { names, paths } = wordsOf(positionals, values.in);
    const found = readNotebook(names.length > 0 ? [...names, ...paths.filter((path) => path !== ".")] : paths);
    if (!found.ok) return fail(found.reason);
    if (values.fix && paths.includes(inputPath)) return fail("What comes in by “-” has no file to be written to: give --fix a file.");
    noteAll(found.notes);
    const documents = values.fix ? writeFixes(found.documents, found.files) : found.documents;
    const { output, errors } = check(shownSafely(documents), format === "text" && values.full ? "full" : format, paintFor(process.stdout));
    process.stdout.write(output);
    return errors ? status.findings : status.good;
  },
};

/** Writes the documents that fixes changed; only those the paths name. */
function writeFixes(documents: readonly Document[], files: ReadonlyMap<string, string>): readonly Document[] {
  const { documents: fixed, applied } = fixAll(documents);
  for (const { path, text } of fixed) {
    const file = files.get(path);
    if (file !== undefined && text !== documents.find((one) => one.path === path)?.text) writeFile(file, text);
  }
  process.stderr.write(`${counted(applied, "fix", "fixes")} applied\n`);
  return fixed;
}
