import { joined } from "../print-parts.js";
import type { LineKind } from "./line-kind.js";

export const athleteLine: LineKind<"athlete"> = {
  kind: "athlete",
  node: "TeamRow",
  under: ["team"],
  read(node, r) {
    const [name] = r.words(node);
    const category = node.getChild("Category");
    return name && category ? { kind: "athlete", name, category: category.getChild("Woman") ? "woman" : "man" } : null;
  },
  print({ name, category }, q) {
    return joined(q(name), category);
  },
  names({ name }, found) {
    found.add("athlete", name, true);
  },
  help: {
    woman: "The category: loads, stations and windows go by it.",
    man: "The category: loads, stations and windows go by it.",
  },
  samples: ["Ada woman", "王 man"],
};
