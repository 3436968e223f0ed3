import { joined, named } from "../print-parts.js";
import type { LineKind } from "./line-kind.js";

export const logBrokeLine: LineKind<"log broke"> = {
  kind: "log broke",
  node: "LogBroke",
  under: ["log"],
  read(node, r) {
    const [athlete, movement = null] = r.words(node);
    const at = node.getChild("Number");
    return athlete && at ? { kind: "log broke", athlete, at: r.number(at), movement } : null;
  },
  print({ athlete, at, movement }, q) {
    return joined(q(athlete), "broke at", at, named(movement, q));
  },
  names({ athlete, movement }, found) {
    found.add("athlete", athlete);
    found.add("movement", movement);
  },
  help: {
    broke: "The rep at which an athlete had to break.",
  },
  samples: ["Marta broke at 41 sandbag squats"],
};
