import { joined, printValue } from "../print-parts.js";
import { valueIn } from "../read-parts.js";
import type { LineKind } from "./line-kind.js";

export const gapLine: LineKind<"gap"> = {
  kind: "gap",
  node: "DayLimit",
  head: "at least",
  under: ["week"],
  read(node, r) {
    const [what] = r.words(node);
    const least = valueIn(node, r);
    return least && what && node.getChild("Least") ? { kind: "gap", least, what } : null;
  },
  print({ least, what }) {
    return joined("at least", printValue(least), what.text);
  },
  help: {
    "at least": "A lower limit.",
  },
  samples: ["at least 4 h between events"],
};
