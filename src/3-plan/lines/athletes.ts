import { joined, printChange } from "../print-parts.js";
import { readChange } from "../read-parts.js";
import type { LineKind } from "./line-kind.js";

export const athletesLine: LineKind<"athletes"> = {
  kind: "athletes",
  node: "Pairs",
  head: "athletes",
  under: ["event"],
  read(node, r) {
    const choice = r.headOf(node) === "athletes" ? r.childWord(node, "Choice") : null;
    return choice && { kind: "athletes", choice, change: readChange(node, r) };
  },
  print({ choice, change }) {
    return joined("athletes", choice.text, printChange(change));
  },
  help: {
    athletes: "That the athletes alternate: after each turn, every 10 reps, or at will.",
  },
  samples: ["athletes alternate", "athletes alternate every 5 reps"],
};
