import { joined, printValue, printWord } from "../print-parts.js";
import type { LineKind } from "./line-kind.js";

export const ruleLine: LineKind<"rule"> = {
  kind: "rule",
  node: "Rule",
  head: "rule",
  under: ["event", "team", "plan", "week"],
  read(node, r) {
    const parts = [];
    for (let child = node.firstChild; child; child = child.nextSibling) {
      if (child.name === "RuleWord") parts.push(r.word(child));
      else if (["Quantity", "Percent", "Number", "Time"].includes(child.name)) parts.push(r.value(child));
    }
    return { kind: "rule", parts };
  },
  print({ parts }) {
    return joined("rule", ...parts.map((part) => ("kind" in part ? printValue(part) : printWord(part))));
  },
  names({ parts }, found) {
    parts.forEach((part) => "kind" in part || (found.isAthlete(part.text) && found.add("athlete", part)));
  },
  help: {
    rule: "A limit that the plan is judged by, of the event, the team or the plan.",
  },
  samples: ["rule set at most 7 reps", "rule share Ada 20 %"],
};
