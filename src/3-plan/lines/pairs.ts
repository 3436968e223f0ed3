import { joined } from "../print-parts.js";
import type { LineKind } from "./line-kind.js";

export const pairsLine: LineKind<"pairs"> = {
  kind: "pairs",
  node: "Pairs",
  head: "pairs",
  under: ["event"],
  read(node, r) {
    const choice = r.childWord(node, "Choice");
    return choice && { kind: "pairs", choice };
  },
  print({ choice }) {
    return joined("pairs", choice.text);
  },
  help: {
    pairs: "Which pairs the rules allow: alike, mixed or any.",
  },
  samples: ["pairs alternate"],
};
