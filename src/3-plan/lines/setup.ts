import { joined, printValue } from "../print-parts.js";
import { valueIn } from "../read-parts.js";
import type { LineKind } from "./line-kind.js";

export const setupLine: LineKind<"setup"> = {
  kind: "setup",
  node: "SetUpLine",
  head: "setup",
  under: ["event"],
  read(node, r) {
    const value = valueIn(node, r);
    return value && { kind: "setup", value };
  },
  print({ value }) {
    return joined("setup", printValue(value));
  },
  help: {
    setup: "What it takes to take up the movement again after a pause: a bar, a rope, a box.",
  },
  samples: ["setup 4 s"],
};
