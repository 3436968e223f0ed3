import { joined } from "../print-parts.js";
import type { LineKind } from "./line-kind.js";

export const workingLine: LineKind<"working"> = {
  kind: "working",
  node: "Working",
  head: "working",
  under: ["event"],
  read(node, r) {
    const most = node.getChild("Number");
    return most && { kind: "working", most: r.whole(most), what: r.childWord(node, "Choice") };
  },
  print({ most, what }) {
    return joined("working at most", most, what && what.text);
  },
  help: {
    working: "How many may work at once: working at most 2, or 1 pair.",
  },
  samples: ["working at most 2", "working at most 1 pair"],
};
