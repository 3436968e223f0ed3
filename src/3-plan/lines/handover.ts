import { joined, printValue } from "../print-parts.js";
import { valueIn } from "../read-parts.js";
import type { LineKind } from "./line-kind.js";

export const handoverLine: LineKind<"handover"> = {
  kind: "handover",
  node: "HandoverLine",
  head: "handover",
  under: ["event"],
  read(node, r) {
    const value = valueIn(node, r);
    return value && { kind: "handover", value };
  },
  print({ value }) {
    return joined("handover", printValue(value));
  },
  help: {
    handover: "What a change of hands costs: of those who work, or of who holds.",
  },
  samples: ["handover 3 s"],
};
