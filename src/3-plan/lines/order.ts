import { joined } from "../print-parts.js";
import type { LineKind } from "./line-kind.js";

export const orderLine: LineKind<"order"> = {
  kind: "order",
  node: "Order",
  head: "order",
  under: ["event"],
  read(node, r) {
    const athletes = r.words(node);
    if (athletes.length === 1 && athletes[0]?.text === "fixed") return { kind: "order", athletes: [] };
    return athletes.length > 1 ? { kind: "order", athletes } : null;
  },
  print({ athletes }, q) {
    return joined("order", athletes.length === 0 ? "fixed" : athletes.map(q).join(", "));
  },
  names({ athletes }, found) {
    athletes.forEach((athlete) => found.add("athlete", athlete));
  },
  help: {
    order: "The order in which athletes follow one another, round and round; or that it is fixed: the team's own, but always the same.",
  },
  samples: ["order Ada, Olu, Eva", "order fixed"],
};
