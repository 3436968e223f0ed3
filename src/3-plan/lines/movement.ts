import { joined } from "../print-parts.js";
import type { LineKind } from "./line-kind.js";

export const movementLine: LineKind<"movement"> = {
  kind: "movement",
  node: "MovementHead",
  head: "movement",
  under: [null],
  read(node, r) {
    const [name] = r.words(node);
    return name ? { kind: "movement", name } : null;
  },
  print({ name }, q) {
    return joined("movement", q(name));
  },
  names({ name }, found) {
    found.add("movement", name, true);
  },
  help: {
    movement: "What a movement asks of parts of the body, so that one tires another.",
  },
  snippets: [
    { word: "movement", says: "what a movement asks of the body", text: "movement #{name}\n  asks squat #{60} %, engine #{20} %\n" },
  ],
  samples: ["movement box jump"],
};
