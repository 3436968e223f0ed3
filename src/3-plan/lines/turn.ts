import { joined, named, printClauses, printSize, printWho } from "../print-parts.js";
import { readBeside, readClauses, readSize, whoIn } from "../read-parts.js";
import type { LineKind } from "./line-kind.js";

export const turnLine: LineKind<"turn"> = {
  kind: "turn",
  node: "Turn",
  under: ["plan", "stage", "window", "repeat", "lane"],
  read(node, r) {
    const [movement] = r.words(node);
    const size = node.getChild("Size");
    const read = size && readSize(size, r);
    return (
      read && {
        kind: "turn",
        who: whoIn(node, r),
        size: read,
        beside: readBeside(node, r),
        movement: movement ?? null,
        clauses: readClauses(node, r),
      }
    );
  },
  print({ who, size, beside, movement, clauses }, q) {
    const others = beside.map((other) => joined("+", printWho(other.who, q), printSize(other.size)));
    return joined(printWho(who, q), printSize(size), ...others, named(movement, q), printClauses(clauses, q));
  },
  names({ who, size, beside, movement, clauses }, found) {
    found.add("movement", movement);
    for (const one of [{ who, size }, ...beside]) {
      found.who(one.who);
      if (one.size.kind === "expression") found.formula(one.size.of);
    }
    found.clauses(clauses);
  },
  samples: [
    "A 7 each while Marta hold",
    "Ada + Olu 28 % unbroken each",
    "Ada 7-6-5 again box jump",
    "Ada + Olu 50-25 % unbroken each",
    "Ada 10 as 4+3+3 rest 5 s",
    "Ada 8 + Olu 11",
  ],
};
