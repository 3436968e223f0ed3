import type { LineKind } from "./line-kind.js";

export const useLine: LineKind<"use"> = {
  kind: "use",
  node: "Use",
  head: "use",
  under: [null],
  read(node, r) {
    return { kind: "use", path: r.childWord(node, "String")?.text ?? "" };
  },
  print({ path }) {
    return `use "${path}"`;
  },
  help: {
    use: "Reads another document's declarations too.",
  },
  snippets: [{ word: "use", says: "another document of the notebook", text: 'use "#{team.rota}"\n' }],
  samples: ['use "../team.rota"'],
};
