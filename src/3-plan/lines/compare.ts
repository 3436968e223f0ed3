import { joined } from "../print-parts.js";
import type { LineKind } from "./line-kind.js";

export const compareLine: LineKind<"compare"> = {
  kind: "compare",
  node: "Compare",
  head: "compare",
  under: [null],
  read(node, r) {
    return { kind: "compare", plans: r.words(node) };
  },
  print({ plans }, q) {
    return joined("compare", plans.map(q).join(", "));
  },
  names({ plans }, found) {
    plans.forEach((plan) => found.add("plan", plan));
  },
  help: {
    compare: "Runs the named plans on the same days and says how often one beats the other.",
  },
  snippets: [{ word: "compare", says: "two plans on the same days", text: "compare #{Plan}, #{Other}\n" }],
  samples: ["compare Steady, Bold"],
};
