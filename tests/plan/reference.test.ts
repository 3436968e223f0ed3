/** Every fenced example of the language reference and of the README is run. */
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { headWords } from "../../grammar/tokens.js";
import { compileText, findingsOf, root } from "../notebook.js";

const pages = ["grammar/README.md", "README.md"];
const examples = pages.flatMap((page) =>
  [...readFileSync(join(root, page), "utf8").matchAll(/^```(rota(?: part)?)\n([\s\S]*?)^```/gm)].map(
    ([, kind = "", text = ""]) => [page, kind, text.split("\n")[0] ?? "", text] as const,
  ),
);

describe("documented examples", () => {
  it.each(examples)("%s, %s: %s", (_page, kind, _first, text) => {
    const found = findingsOf(compileText(text)).filter(({ rule, severity }) =>
      kind === "rota" ? severity === "error" : rule === "does-not-parse",
    );
    expect(found.map(({ message }) => message)).toEqual([]);
  });

  it("show every word that opens a line", () => {
    const all = examples.map(([, , , text]) => text).join("\n");
    expect(headWords.filter((word) => !new RegExp(`^ *${word}\\b`, "m").test(all))).toEqual([]);
  });
});
