import { joined } from "../print-parts.js";
import type { LineKind } from "./line-kind.js";

export const scoreLine: LineKind<"score"> = {
  kind: "score",
  node: "Score",
  head: "score",
  under: ["event"],
  read(node, r) {
    const choice = r.childWord(node, "Choice");
    return choice && { kind: "score", choice };
  },
  print({ choice }) {
    return joined("score", choice.text);
  },
  help: {
    score: "For time or for reps.",
  },
  samples: ["score time"],
};
