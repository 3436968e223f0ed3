import { joined, printRest } from "../print-parts.js";
import { readRest } from "../read-parts.js";
import type { LineKind } from "./line-kind.js";

export const restLine: LineKind<"rest"> = {
  kind: "rest",
  node: "Rest",
  head: "rest",
  under: ["plan", "stage", "window", "repeat", "lane"],
  read(node, r) {
    const rest = readRest(node, r);
    return rest && { kind: "rest", rest };
  },
  print({ rest }) {
    return joined("rest", printRest(rest));
  },
  help: {
    rest: "Waits a time, until a share of the reserve is back, or until ready for the next set.",
  },
  samples: ["rest 10 s", "rest until ready", "rest 1:1"],
};
