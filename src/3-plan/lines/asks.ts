import { printValue } from "../print-parts.js";
import { valueIn } from "../read-parts.js";
import type { LineKind } from "./line-kind.js";

export const asksLine: LineKind<"asks"> = {
  kind: "asks",
  node: "Asks",
  head: "asks",
  under: ["movement", "hold"],
  read(node, r) {
    const asks = node.getChildren("Ask").map((ask) => ({ part: r.childWord(ask, "Part"), share: valueIn(ask, r) }));
    return { kind: "asks", asks: asks.flatMap(({ part, share }) => (part && share ? [{ part, share }] : [])) };
  },
  print({ asks }) {
    return `asks ${asks.map(({ part, share }) => `${part.text} ${printValue(share)}`).join(", ")}`;
  },
  names({ asks }, found) {
    asks.forEach(({ part }) => found.add("body part", part));
  },
  help: {
    asks: "Shares by part of the body, up to 100 % each.",
  },
  samples: ["asks squat 60 %, engine 20 %"],
};
