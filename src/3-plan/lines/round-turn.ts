import { joined, printBroken, printClauses, printWho } from "../print-parts.js";
import { readBrokenItems, readClauses, whoIn } from "../read-parts.js";
import type { LineKind } from "./line-kind.js";

export const roundTurnLine: LineKind<"round turn"> = {
  kind: "round turn",
  node: "RoundTurn",
  under: ["plan", "stage", "window", "repeat", "lane"],
  read(node, r) {
    const number = node.getChild("Number");
    return {
      kind: "round turn",
      who: whoIn(node, r),
      count: number ? r.whole(number) : 1,
      clauses: readClauses(node, r),
      items: readBrokenItems(node, r),
    };
  },
  print(line, q) {
    const { who, count, clauses } = line;
    const items = line.items.map(({ movement, broken }) => `, ${joined(q(movement), printBroken(broken))}`).join("");
    return joined(printWho(who, q), count === 1 ? "round" : `${count} rounds`, printClauses(clauses, q)) + items;
  },
  names({ who, clauses, items }, found) {
    found.who(who);
    items.forEach(({ movement }) => found.add("movement", movement));
    found.clauses(clauses);
  },
  samples: ["A round", "A 2 rounds", "A round, swing as 8+8 rest 4 s"],
};
