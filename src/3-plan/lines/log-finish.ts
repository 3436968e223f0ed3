import { joined, printValue } from "../print-parts.js";
import { valueIn } from "../read-parts.js";
import type { LineKind } from "./line-kind.js";

export const logFinishLine: LineKind<"log finish"> = {
  kind: "log finish",
  node: "LogFinish",
  head: "finish",
  under: ["log"],
  read(node, r) {
    const at = valueIn(node, r);
    return at && { kind: "log finish", at };
  },
  print({ at }) {
    return joined("finish", printValue(at));
  },
  help: {
    finish: "The time at which the event was done.",
  },
  samples: ["finish 12:21"],
};
