import { joined, printClauses, printValue } from "../print-parts.js";
import { readClauses, readCount } from "../read-parts.js";
import type { LineKind } from "./line-kind.js";

export const roundItemLine: LineKind<"round item"> = {
  kind: "round item",
  node: "RoundItem",
  under: ["round"],
  read(node, r) {
    const [movement] = r.words(node);
    return movement ? { kind: "round item", count: readCount(node, r), movement, clauses: readClauses(node, r) } : null;
  },
  print({ count, movement, clauses }, q) {
    return joined(count && printValue(count), q(movement), printClauses(clauses, q));
  },
  names({ movement, clauses }, found) {
    found.add("movement", movement);
    found.clauses(clauses);
  },
  samples: ["12 burpee in sync", "10 pull-up each", "50 cal row"],
};
