import { joined } from "../print-parts.js";
import type { LineKind } from "./line-kind.js";

export const zoneLine: LineKind<"zone"> = {
  kind: "zone",
  node: "Zone",
  head: "zone",
  under: ["week"],
  read(node, r) {
    return { kind: "zone", zone: r.childWord(node, "ZoneName")?.text ?? "" };
  },
  print({ zone }) {
    return joined("zone", zone);
  },
  help: {
    zone: "The time zone of the week's times.",
  },
  samples: ["zone Europe/Lisbon"],
};
