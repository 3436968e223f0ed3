import { printWho } from "../print-parts.js";
import type { LineKind } from "./line-kind.js";

/** `pair A  Ines + Bram`: the last word before the first + is an athlete, those before it the pair's name. */
export const pairLine: LineKind<"pair"> = {
  kind: "pair",
  node: "Pair",
  head: "pair",
  under: ["plan"],
  read(node, r) {
    const [first, ...others] = node.getChildren("Name");
    const raw = first ? r.raw(first) : "";
    const split = /^(.*\S)\s+(\S+)$/s.exec(raw);
    if (!first || !split?.[1] || !split[2] || others.length === 0) return null;
    const from = first.from - r.base;
    const to = from + raw.length;
    const name = { text: r.clean(split[1]), span: { from, to: from + split[1].length } };
    const athlete = { text: r.clean(split[2]), span: { from: to - split[2].length, to } };
    return { kind: "pair", name, athletes: [athlete, ...others.map((other) => r.word(other))] };
  },
  print({ name, athletes }, q) {
    return `pair ${q(name)}  ${printWho(athletes, q)}`;
  },
  names({ name, athletes }, found) {
    found.add("pair", name, true, found.plan);
    athletes.forEach((athlete) => found.add("athlete", athlete));
  },
  help: {
    pair: "Two or more athletes under one name.",
  },
  samples: ["pair A  Ines + Bram", "pair the tall ones  Ada + Olu"],
};
