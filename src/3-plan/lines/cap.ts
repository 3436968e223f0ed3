import { joined, printValue } from "../print-parts.js";
import { valueIn } from "../read-parts.js";
import type { LineKind } from "./line-kind.js";

export const capLine: LineKind<"cap"> = {
  kind: "cap",
  node: "Cap",
  head: "cap",
  under: ["event"],
  read(node, r) {
    const value = valueIn(node, r);
    return value && { kind: "cap", value };
  },
  print({ value }) {
    return joined("cap", printValue(value));
  },
  help: {
    cap: "The time after which the event ends, done or not.",
  },
  samples: ["cap 12 min", "cap 1:30:00"],
};
