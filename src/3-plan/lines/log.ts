import { joined } from "../print-parts.js";
import { rawChild } from "../read-parts.js";
import type { LineKind } from "./line-kind.js";

export const logLine: LineKind<"log"> = {
  kind: "log",
  node: "LogHead",
  head: "log",
  under: [null],
  read(node, r) {
    const [plan] = r.words(node);
    return plan ? { kind: "log", plan, date: rawChild(node, "Date", r), time: rawChild(node, "Time", r) || null } : null;
  },
  print({ plan, date, time }, q) {
    return joined("log", q(plan), "on", date, time);
  },
  names({ plan }, found) {
    found.add("plan", plan);
  },
  help: {
    log: "What happened when a plan was tried.",
  },
  snippets: [{ word: "log", says: "what happened", text: "log #{Plan} on #{2026-03-20} #{18:00}\n  finish #{12:30}\n" }],
  samples: ["log Steady on 2026-03-23 18:00"],
};
