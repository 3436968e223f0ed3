import { readFileSync } from "node:fs";
import { parseArgs } from "node:util";
import { documentsInFile, mostInLink, pack } from "../../1-text/parcel.js";
import { compile } from "../../compile.js";
import { neededBy } from "../../7-view/needed.js";
import { singlePage } from "../../7-view/single-page.js";
import { type Command, compiledAt, fail, shownSafely, status } from "../command.js";

export const sendCommand: Command = {
  about: "a document as one page, or as a link",
  help: `rotaline send DOCUMENT [PATH…] [--link ADDRESS]
rotaline send --read FILE

Prints one page that needs nothing else: the document's text with answers, lanes and cards. It carries the text, and that of
the documents it needs, so that Rotaline can open it again; --read prints what a page carries. --link prints a link instead,
to the Rotaline at that address, with all of it behind the #: no server gets to see it.

  rotaline send breakwater.rota notebooks/lighthouse > breakwater.html
  rotaline send breakwater.rota notebooks/lighthouse --link https://plans.example/
  rotaline send --read breakwater.html`,
  run: (args) => {
    const {
      values,
      positionals: [name, ...paths],
    } = parseArgs({ args: [...args], allowPositionals: true, options: { link: { type: "string" }, read: { type: "string" } } });
    if (values.read !== undefined) return readBack(values.read);
    if (name === undefined) return fail("Which document? Write: rotaline send DOCUMENT [PATH…]");
    const read = compiledAt(paths.length > 0 ? paths : [name.includes("/") ? name : "."]);
    if (typeof read === "number") return read;
    const found = read.documents.find(({ path }) => path === name || path.endsWith(`/${name}`));
    if (!found) return fail(`There is no document ${name}. Documents here: ${read.documents.map(({ path }) => path).join(", ")}.`);
    const short = (path: string): string => path.split("/").at(-1) ?? path;
    const documents = neededBy(found.path, read.compiled).map(({ path, text }) => ({ path: short(path), text }));
    const parcel = pack(documents);
    if (values.link === undefined) {
      process.stdout.write(singlePage(short(found.path), compile(documents), parcel));
      return status.good;
    }
    if (parcel.length > mostInLink)
      return fail(`It comes to ${parcel.length} characters, and a link carries ${mostInLink}. Send the page or the file.`);
    process.stdout.write(`${values.link.replace(/#.*$/, "")}#parcel=${parcel}\n`);
    return status.good;
  },
};

function readBack(file: string): number {
  const read = documentsInFile(file.split("/").at(-1) ?? file, readFileSync(file, "utf8"));
  if (!read.ok) return fail(read.reason);
  for (const { path, text } of shownSafely(read.documents)) process.stdout.write(`// ${path}\n${text}${text.endsWith("\n") ? "" : "\n"}`);
  return status.good;
}
