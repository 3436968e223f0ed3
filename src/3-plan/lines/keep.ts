import { joined, printValue } from "../print-parts.js";
import { valueIn } from "../read-parts.js";
import type { LineKind } from "./line-kind.js";

export const keepLine: LineKind<"keep"> = {
  kind: "keep",
  node: "Keep",
  head: "keep",
  under: ["week"],
  read(node, r) {
    const [what] = r.words(node);
    const value = valueIn(node, r);
    return value && what ? { kind: "keep", value, what } : null;
  },
  print({ value, what }) {
    return joined("keep", printValue(value), what.text);
  },
  help: {
    keep: "Time kept free before the score is due, to write it down and send it: keep 2 h before due.",
  },
  samples: ["keep 2 h before due"],
};
