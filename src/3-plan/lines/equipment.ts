import { joined, named } from "../print-parts.js";
import type { LineKind } from "./line-kind.js";

export const equipmentLine: LineKind<"equipment"> = {
  kind: "equipment",
  node: "Equipment",
  head: "one",
  under: ["event"],
  read(node, r) {
    const [name, ...movements] = r.words(node);
    return name ? { kind: "equipment", name, movements } : null;
  },
  print({ name, movements }, q) {
    return joined("one", named(name, q), movements.length > 0 ? `for ${movements.map(q).join(", ")}` : null);
  },
  names({ movements }, found) {
    movements.forEach((movement) => found.add("movement", movement));
  },
  help: {
    one: "Equipment that there is one of: two lanes can't use it at once.",
  },
  samples: ["one bar", "one bar for snatch, jerk"],
};
