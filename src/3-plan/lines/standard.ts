import { joined } from "../print-parts.js";
import { rawChild } from "../read-parts.js";
import type { LineKind } from "./line-kind.js";

export const standardLine: LineKind<"standard"> = {
  kind: "standard",
  node: "Standard",
  head: "standard",
  under: ["event"],
  read(node, r) {
    return { kind: "standard", text: rawChild(node, "Text", r) };
  },
  print({ text }) {
    return joined("standard", text);
  },
  help: {
    standard: "How a rep counts. It goes onto the athletes' cards as written.",
  },
  samples: ['standard squat: "hips" below the knees'],
};
