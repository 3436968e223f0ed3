import { joined, printValue } from "../print-parts.js";
import { valueIn } from "../read-parts.js";
import type { LineKind } from "./line-kind.js";

export const logDroppedLine: LineKind<"log dropped"> = {
  kind: "log dropped",
  node: "LogDropped",
  under: ["log"],
  read(node, r) {
    const [athlete] = r.words(node);
    const at = valueIn(node, r);
    return athlete && at ? { kind: "log dropped", athlete, at } : null;
  },
  print({ athlete, at }, q) {
    return joined(q(athlete), "dropped the hold at", printValue(at));
  },
  names({ athlete }, found) {
    found.add("athlete", athlete);
  },
  help: {
    dropped: "When the hold was dropped.",
  },
  samples: ["Tariq dropped the hold at 3:20"],
};
