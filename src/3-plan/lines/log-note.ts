import { joined } from "../print-parts.js";
import { rawChild } from "../read-parts.js";
import type { LineKind } from "./line-kind.js";

export const logNoteLine: LineKind<"log note"> = {
  kind: "log note",
  node: "LogNote",
  head: "note",
  under: ["log"],
  read(node, r) {
    return { kind: "log note", text: rawChild(node, "Text", r) };
  },
  print({ text }) {
    return joined("note", text);
  },
  help: {
    note: "What is worth remembering of the try, in your own words.",
  },
  samples: ["note slippery floor"],
};
