import { joined } from "../print-parts.js";
import type { LineKind } from "./line-kind.js";

export const holdLine: LineKind<"hold"> = {
  kind: "hold",
  node: "HoldHead",
  head: "hold",
  under: [null],
  read(node, r) {
    const [name] = r.words(node);
    return name ? { kind: "hold", name } : null;
  },
  print({ name }, q) {
    return joined("hold", q(name));
  },
  names({ name }, found) {
    found.add("hold", name, true);
  },
  help: {
    hold: "A weight or a position that somebody keeps while others work.",
  },
  snippets: [{ word: "hold", says: "what a hold asks of the body", text: "hold #{name}\n  asks grip #{40} %, trunk #{30} %\n" }],
  samples: ["hold stone"],
};
