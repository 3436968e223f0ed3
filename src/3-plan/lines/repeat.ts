import { joined, printValue } from "../print-parts.js";
import { valueIn } from "../read-parts.js";
import type { LineKind } from "./line-kind.js";

export const repeatLine: LineKind<"repeat"> = {
  kind: "repeat",
  node: "Repeat",
  head: "repeat",
  under: ["plan", "stage", "window", "repeat", "lane"],
  read(node, r) {
    const number = node.getChild("Number");
    const until = node.getChild("Until") !== null;
    return {
      kind: "repeat",
      times: until ? null : number && r.number(number),
      until: until ? valueIn(node, r) : null,
      whenReady: node.getChild("WhenReady") !== null,
    };
  },
  print({ times, until, whenReady }) {
    return joined("repeat", times, until && `until ${printValue(until)}`) + (whenReady ? ", each when ready" : "");
  },
  help: {
    repeat: "Again and again until the stage's target or the cap; or a number of times, or until a time.",
  },
  samples: ["repeat", "repeat 5", "repeat 3, each when ready", "repeat until 6:00", "repeat, each when ready"],
};
