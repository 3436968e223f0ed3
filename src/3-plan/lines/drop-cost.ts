import { joined, printValue } from "../print-parts.js";
import { valueIn } from "../read-parts.js";
import type { LineKind } from "./line-kind.js";

export const dropCostLine: LineKind<"drop cost"> = {
  kind: "drop cost",
  node: "DropCost",
  head: "drop",
  under: ["event"],
  read(node, r) {
    const value = valueIn(node, r);
    return value && { kind: "drop cost", value };
  },
  print({ value }) {
    return joined("drop costs", printValue(value));
  },
  help: {
    drop: "What each dropped hold costs by the rules: reps, or seconds.",
  },
  samples: ["drop costs 5 reps", "drop costs 10 s"],
};
