import { joined } from "../print-parts.js";
import type { LineKind } from "./line-kind.js";

export const teamLine: LineKind<"team"> = {
  kind: "team",
  node: "TeamHead",
  head: "team",
  under: [null],
  read(node, r) {
    const [name] = r.words(node);
    return name ? { kind: "team", name } : null;
  },
  print({ name }, q) {
    return joined("team", q(name));
  },
  names({ name }, found) {
    found.add("team", name, true);
  },
  help: {
    team: "Who competes. An athlete a line, woman or man; team rules may follow.",
  },
  snippets: [{ word: "team", says: "who competes", text: "team #{Team}\n  #{Ada}   woman\n  #{Olu}   man\n" }],
  samples: ["team Pier Nine", 'team "for two"'],
};
