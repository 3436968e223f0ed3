import { joined } from "../print-parts.js";
import type { LineKind } from "./line-kind.js";

export const stationLine: LineKind<"station"> = {
  kind: "station",
  node: "Station",
  head: "station",
  under: ["event"],
  read(node, r) {
    const [name, who] = r.words(node);
    return name && who ? { kind: "station", name, who } : null;
  },
  print({ name, who }, q) {
    return joined("station", q(name), "for", who.text);
  },
  names({ name }, found) {
    found.add("station", name, true, found.event);
  },
  help: {
    station: "A place that belongs to the women or the men.",
  },
  samples: ["station North for women"],
};
