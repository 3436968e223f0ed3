import { joined, printValue } from "../print-parts.js";
import { valueIn } from "../read-parts.js";
import type { LineKind } from "./line-kind.js";

export const logRepsLine: LineKind<"log reps"> = {
  kind: "log reps",
  node: "LogReps",
  head: "reps",
  under: ["log"],
  read(node, r) {
    const at = valueIn(node, r);
    const reps = node.getChild("Number");
    return at && reps ? { kind: "log reps", at, reps: r.number(reps) } : null;
  },
  print({ at, reps }) {
    return joined("reps at", printValue(at), reps);
  },
  help: {
    reps: "What stood on the board at a time: reps at 3:00 41. Of an event of rounds, its whole rounds.",
  },
  samples: ["reps at 3:00 41"],
};
