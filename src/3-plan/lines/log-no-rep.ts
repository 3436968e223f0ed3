import { joined } from "../print-parts.js";
import type { LineKind } from "./line-kind.js";

export const logNoRepLine: LineKind<"log no-rep"> = {
  kind: "log no-rep",
  node: "LogNoRep",
  under: ["log"],
  read(node, r) {
    const [athlete] = r.words(node);
    const count = node.getChild("Number");
    return athlete && count ? { kind: "log no-rep", athlete, count: r.number(count) } : null;
  },
  print({ athlete, count }, q) {
    return joined(q(athlete), "no-rep", count);
  },
  names({ athlete }, found) {
    found.add("athlete", athlete);
  },
  help: {
    "no-rep": "Reps that did not count.",
  },
  samples: ["Ines no-rep 2"],
};
