import { joined } from "../print-parts.js";
import type { LineKind } from "./line-kind.js";

export const planLine: LineKind<"plan"> = {
  kind: "plan",
  node: "PlanHead",
  head: "plan",
  under: [null],
  read(node, r) {
    const [name, event] = r.words(node);
    return name && event ? { kind: "plan", name, event } : null;
  },
  print({ name, event }, q) {
    return joined("plan", q(name), "for", q(event));
  },
  names({ name, event }, found) {
    found.add("plan", name, true);
    found.add("event", event);
  },
  help: {
    plan: "Who does what, in which order, for one event.",
    for: "The event a plan is for; whose a window or station is.",
  },
  snippets: [
    { word: "plan", says: "turns, one after the other", text: "plan #{Plan} for #{Event}\n  repeat\n    #{Ada} #{5}\n    #{Olu} #{5}\n" },
    {
      word: "plan",
      says: "pairs, one holds while the other works",
      text: "plan #{Plan} for #{Event}\n  pair A  #{Ada} + #{Olu}\n  pair B  #{Ines} + #{Bram}\n  repeat\n    A #{6} each    while #{Ines} hold\n    B #{6} each    while #{Ada} hold\n",
    },
  ],
  samples: ["plan Steady for Breakwater"],
};
