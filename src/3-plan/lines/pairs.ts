import { joined, printChange } from "../print-parts.js";
import { readChange } from "../read-parts.js";
import type { LineKind } from "./line-kind.js";

export const pairsLine: LineKind<"pairs"> = {
  kind: "pairs",
  node: "Pairs",
  head: "pairs",
  under: ["event"],
  read(node, r) {
    const choice = r.headOf(node) === "pairs" ? r.childWord(node, "Choice") : null;
    return choice && { kind: "pairs", choice, change: readChange(node, r) };
  },
  print({ choice, change }) {
    return joined("pairs", choice.text, printChange(change));
  },
  help: {
    pairs: "Which pairs the rules allow: alike, mixed or any; or that they alternate, after each turn, every 10 reps or at will.",
  },
  samples: ["pairs alternate", "pairs alternate every 10 reps", "pairs alternate at will"],
};
