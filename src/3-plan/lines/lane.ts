import { joined } from "../print-parts.js";
import type { LineKind } from "./line-kind.js";

export const laneLine: LineKind<"lane"> = {
  kind: "lane",
  node: "Lane",
  head: "lane",
  under: ["plan", "stage", "window", "repeat"],
  read(node, r) {
    const [name, station] = r.words(node);
    return name ? { kind: "lane", name, station: station ?? null } : null;
  },
  print({ name, station }, q) {
    return joined("lane", q(name), station && `on ${q(station)}`);
  },
  names({ name, station }, found) {
    found.add("lane", name, true, found.plan);
    found.add("station", station, false, found.event);
  },
  help: {
    lane: "Turns that go on beside another lane's.",
  },
  samples: ["lane left", "lane women on North"],
};
