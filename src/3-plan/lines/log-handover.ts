import { joined, printValue } from "../print-parts.js";
import { valueIn } from "../read-parts.js";
import type { LineKind } from "./line-kind.js";

export const logHandoverLine: LineKind<"log handover"> = {
  kind: "log handover",
  node: "LogHandover",
  head: "handover about",
  under: ["log"],
  read(node, r) {
    const value = valueIn(node, r);
    return value && { kind: "log handover", value };
  },
  print({ value }) {
    return joined("handover about", printValue(value));
  },
  help: {
    "handover about": "What a change of hands took that day, as far as anybody saw.",
  },
  samples: ["handover about 5 s"],
};
