import { joined } from "../print-parts.js";
import type { LineKind } from "./line-kind.js";

export const dayLimitLine: LineKind<"day limit"> = {
  kind: "day limit",
  node: "DayLimit",
  head: "at most",
  under: ["week"],
  read(node, r) {
    const [what] = r.words(node);
    const most = node.getChild("Number");
    return most && what && !node.getChild("Least") ? { kind: "day limit", most: r.number(most), what } : null;
  },
  print({ most, what }) {
    return joined("at most", most, what.text);
  },
  help: {
    at: "A limit on the week's days: at most 1 event a day; at least 4 h between events.",
    "at most": "An upper limit.",
  },
  samples: ["at most 1 event a day"],
};
