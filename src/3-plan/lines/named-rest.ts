import { joined, printRest, printWho } from "../print-parts.js";
import { readRest, whoIn } from "../read-parts.js";
import type { LineKind } from "./line-kind.js";

export const namedRestLine: LineKind<"named rest"> = {
  kind: "named rest",
  node: "NamedRest",
  under: ["plan", "stage", "window", "repeat", "lane"],
  read(node, r) {
    const rest = readRest(node, r);
    return rest && { kind: "named rest", who: whoIn(node, r), rest };
  },
  print({ who, rest }, q) {
    return joined(printWho(who, q), "rest", printRest(rest));
  },
  names({ who }, found) {
    found.who(who);
  },
  samples: ["Ines rest 10 s", "A rest until 60 %"],
};
