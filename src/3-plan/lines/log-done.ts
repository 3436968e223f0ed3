import { joined, printValue } from "../print-parts.js";
import { valueIn } from "../read-parts.js";
import type { LineKind } from "./line-kind.js";

export const logDoneLine: LineKind<"log done"> = {
  kind: "log done",
  node: "LogDone",
  under: ["log"],
  read(node, r) {
    const [stage] = r.words(node);
    const at = valueIn(node, r);
    return stage && at ? { kind: "log done", stage, at } : null;
  },
  print({ stage, at }, q) {
    return joined(q(stage), "done", printValue(at));
  },
  names({ stage }, found) {
    found.add("stage", stage, false, found.event);
  },
  help: {
    done: "When a stage was done.",
  },
  samples: ["squats done 4:10"],
};
