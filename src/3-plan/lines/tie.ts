import { joined, named } from "../print-parts.js";
import type { LineKind } from "./line-kind.js";

export const tieLine: LineKind<"tie"> = {
  kind: "tie",
  node: "Tie",
  head: "tie",
  under: ["event"],
  read(node, r) {
    const [stage] = r.words(node);
    return stage ? { kind: "tie", stage } : null;
  },
  print({ stage }, q) {
    return joined("tie time of stage", named(stage, q));
  },
  names({ stage }, found) {
    found.add("stage", stage, false, found.event);
  },
  help: {
    tie: "The stage whose end tells two teams of one score apart.",
  },
  samples: ["tie time of stage logs"],
};
