import { joined } from "../print-parts.js";
import { rawChild } from "../read-parts.js";
import type { LineKind } from "./line-kind.js";

export const dueLine: LineKind<"due"> = {
  kind: "due",
  node: "Due",
  head: "due",
  under: ["week"],
  read(node, r) {
    return {
      kind: "due",
      date: rawChild(node, "Date", r),
      time: rawChild(node, "Time", r),
      zone: r.childWord(node, "ZoneName")?.text ?? null,
    };
  },
  print({ date, time, zone }) {
    return joined("due", date, time, zone);
  },
  help: {
    due: "When the score has to be in.",
  },
  samples: ["due 2026-03-26 20:00 Europe/Dublin"],
};
