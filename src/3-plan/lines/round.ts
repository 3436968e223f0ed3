import { joined } from "../print-parts.js";
import type { LineKind } from "./line-kind.js";

export const roundLine: LineKind<"round"> = {
  kind: "round",
  node: "RoundHead",
  head: "round",
  under: ["event"],
  read(node, r) {
    const of = node.getChild("Number");
    return { kind: "round", of: of && r.whole(of) };
  },
  print({ of }) {
    return joined("round", (of !== null && `of ${of}`) || null);
  },
  help: {
    round: "Work that is done again and again; in a plan, who does a whole round.",
  },
  samples: ["round", "round of 8"],
};
