import { joined, printValue, printWord } from "../print-parts.js";
import { valueIn } from "../read-parts.js";
import type { LineKind } from "./line-kind.js";

export const assumeLine: LineKind<"assume"> = {
  kind: "assume",
  node: "Assume",
  head: "assume",
  under: [null],
  read(node, r) {
    const [name] = r.words(node);
    const value = valueIn(node, r);
    return name && value ? { kind: "assume", name, value } : null;
  },
  print({ name, value }) {
    return joined("assume", printWord(name), printValue(value));
  },
  help: {
    assume: "Another value for a constant of the models.",
  },
  snippets: [{ word: "assume", says: "another value for a constant of the models", text: "assume #{handover} #{4 s}\n" }],
  samples: ["assume handover 4 s"],
};
