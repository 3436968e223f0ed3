import { joined, printHours } from "../print-parts.js";
import { hoursIn, rawChild } from "../read-parts.js";
import type { LineKind } from "./line-kind.js";

export const openLine: LineKind<"open"> = {
  kind: "open",
  node: "Open",
  head: "open",
  under: ["week"],
  read(node, r) {
    return { kind: "open", date: rawChild(node, "Date", r) || null, hours: hoursIn(node, r) ?? { from: "", to: "" } };
  },
  print({ date, hours }) {
    return joined("open", date, printHours(hours));
  },
  help: {
    open: "When the floor can be had: open 2026-03-20 16:00–21:00, or open 16:00–21:00 for every day.",
  },
  samples: ["open 16:00–21:00", "open 2026-03-20 16:00–21:00"],
};
