import type { Document } from "../1-text/document.js";
import { format } from "../3-plan/format.js";
import { occurrencesIn } from "../3-plan/occurrences.js";
import { rename } from "../3-plan/rename.js";
import type { Compiled } from "../compile.js";
import type { Explanation } from "../7-view/answer.js";
import { completionsAt } from "../7-view/completion.js";
import { declarationOf, helpAt, nameAt, placesOf } from "../7-view/name-help.js";
import type { Question, Reply } from "./protocol.js";

/** What the page is told of a place of a document, drawn from the compiled notebook. */
export async function replyTo(
  question: Question,
  notebook: Compiled,
  documents: readonly Document[],
  explanationAt: (path: string, offset: number) => Explanation | null,
): Promise<Reply> {
  const { about, path, offset, to } = question;
  switch (about) {
    case "copy":
    case "template":
    case "first step":
    case "send":
    case "received":
    case "table":
    case "rows":
    case "cards":
    case "floor":
      return (await import("./rare-questions.js")).replyToRare(about, question, notebook);
    case "explanation":
      return { about, value: explanationAt(path, offset) };
  }
  const text = documents.find((document) => document.path === path)?.text ?? "";
  if (about === "format") return { about, value: format(text) };
  const read = {
    documents: [...notebook.documents].map(([at, { document }]) => ({ path: at, blocks: document.blocks })),
    world: notebook.kept.world,
  };
  if (about === "completion") return { about, value: completionsAt(read, text, offset) };
  const names = occurrencesIn(read);
  if (about === "help") return { about, value: helpAt(names, documents, path, offset) };
  const name = nameAt(names, path, offset);
  switch (about) {
    case "declaration":
      return { about, value: name && declarationOf(names, name) };
    case "name":
      return { about, value: name && { kind: name.kind, name: name.name, places: placesOf(names, name).length } };
    case "renaming":
      return { about, value: name && rename(names, name, to) };
  }
}
