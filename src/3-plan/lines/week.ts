import { joined } from "../print-parts.js";
import type { LineKind } from "./line-kind.js";

export const weekLine: LineKind<"week"> = {
  kind: "week",
  node: "WeekHead",
  head: "week",
  under: [null],
  read(node, r) {
    const [name] = r.words(node);
    return name ? { kind: "week", name } : null;
  },
  print({ name }, q) {
    return joined("week", q(name));
  },
  names({ name }, found) {
    found.add("week", name, true);
  },
  help: {
    week: "When each event is tried, and when scores are due.",
  },
  snippets: [
    {
      word: "week",
      says: "when each event is tried",
      text: "week #{Week}\n  zone #{Europe/Lisbon}\n  due #{2026-03-23} #{17:00}\n  #{2026-03-20} #{18:00}  #{Event} plan #{Plan}\n  #{2026-03-21}  rest\n",
    },
  ],
  samples: ["week One"],
};
