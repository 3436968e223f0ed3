import { joined, printValue } from "../print-parts.js";
import { valueIn } from "../read-parts.js";
import type { LineKind } from "./line-kind.js";

export const windowLine: LineKind<"window"> = {
  kind: "window",
  node: "Window",
  head: "window",
  under: ["event", "plan"],
  read(node, r) {
    const [who] = r.words(node);
    return who ? { kind: "window", lasts: valueIn(node, r), who } : null;
  },
  print({ lasts, who }) {
    return lasts ? joined("window", printValue(lasts), "for", who.text) : joined("window", who.text);
  },
  help: {
    window: "A stretch of time that belongs to the women or the men.",
  },
  samples: ["window 6 min for women", "window men"],
};
