import { joined } from "../print-parts.js";
import type { LineKind } from "./line-kind.js";

export const logFeltLine: LineKind<"log felt"> = {
  kind: "log felt",
  node: "LogFelt",
  head: "felt",
  under: ["log"],
  read(node, r) {
    const effort = node.getChild("Number");
    return effort ? { kind: "log felt", effort: r.number(effort) } : null;
  },
  print({ effort }) {
    return joined("felt", effort);
  },
  help: {
    felt: "How hard it was, from 0 to 10.",
  },
  samples: ["felt 9"],
};
