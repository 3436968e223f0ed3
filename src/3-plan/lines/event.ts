import { joined } from "../print-parts.js";
import type { LineKind } from "./line-kind.js";

export const eventLine: LineKind<"event"> = {
  kind: "event",
  node: "EventHead",
  head: "event",
  under: [null],
  read(node, r) {
    const [name, like] = r.words(node);
    return name ? { kind: "event", name, like: like ?? null } : null;
  },
  print({ name, like }, q) {
    return joined("event", q(name), like && `like ${q(like)}`);
  },
  names({ name, like }, found) {
    found.add("event", name, true);
    found.add("event", like);
  },
  help: {
    event: "What the competition publishes. Like another event, it copies that and says what differs.",
    like: "Copies another event; the lines below replace or add.",
  },
  snippets: [
    {
      word: "event",
      says: "the published rules, for time",
      text: "event #{Event}\n  score time\n  cap #{10} min\n  handover #{3} s\n  working at most #{1}\n  stage #{main}  #{60} #{movement}\n",
    },
    {
      word: "event",
      says: "the published rules, for reps",
      text: "event #{Event}\n  score reps\n  cap #{7} min\n  handover #{3} s\n  stage #{main}\n",
    },
    {
      word: "event",
      says: "rounds in pairs",
      text: "event #{Event}\n  score time\n  cap #{12} min\n  working at most 1 pair\n  round of #{8}\n    #{6} #{movement} each\n    #{10} #{other} in sync\n",
    },
  ],
  samples: ["event Sprint", "event Other like Sprint"],
};
