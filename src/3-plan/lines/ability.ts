import { joined } from "../print-parts.js";
import type { LineKind } from "./line-kind.js";

export const abilityLine: LineKind<"ability"> = {
  kind: "ability",
  node: "AbilityHead",
  head: "ability",
  under: [null],
  read(node, r) {
    const on = r.childWord(node, "Date");
    return { kind: "ability", on: on && on.text, athletes: node.getChildren("Athlete").map((athlete) => r.word(athlete)) };
  },
  print({ on, athletes }, q) {
    return joined("ability", on && `on ${on}`, ...athletes.map(q));
  },
  names({ athletes }, found) {
    athletes.forEach((athlete) => found.add("athlete", athlete));
  },
  help: {
    ability: "What was tested: an athlete a column, a movement or hold a row.",
  },
  snippets: [
    {
      word: "ability",
      says: "what was tested",
      text: "ability                #{Ada}   #{Olu}\n  #{movement}  unbroken   #{20}    #{24}   reps\n  #{movement}  cycle      #{2.0}   #{2.0}  s\n",
    },
  ],
  samples: ["ability on 2026-03-01 Ada Olu", "ability Ada"],
};
