import { joined, named } from "../print-parts.js";
import { rawChild } from "../read-parts.js";
import type { LineKind } from "./line-kind.js";

export const dayLine: LineKind<"day"> = {
  kind: "day",
  node: "Day",
  under: ["week"],
  read(node, r) {
    const [event = null, plan = null] = r.words(node);
    const numberIn = (clause: string): number | null => {
      const number = node.getChild(clause)?.getChild("Number");
      return number ? r.number(number) : null;
    };
    return {
      kind: "day",
      date: rawChild(node, "Date", r) || null,
      time: rawChild(node, "Time", r) || null,
      rest: node.getChild("RestWord") !== null,
      event,
      plan,
      again: node.getChild("Again") !== null,
      effort: numberIn("Effort"),
      weight: numberIn("Weight"),
    };
  },
  print(line, q) {
    const attempt = joined(line.plan && `plan ${q(line.plan)}`, line.again ? "again" : "");
    const said = joined(line.effort === null ? "" : `effort ${line.effort}`, line.weight === null ? "" : `weight ${line.weight}`);
    return joined(line.date, line.time, line.rest ? "rest" : named(line.event, q), attempt, said);
  },
  names({ event, plan }, found) {
    found.add("event", event);
    found.add("plan", plan);
  },
  help: {
    effort: "How hard it was, or will be, from 0 to 10; with its minutes it is the day's load.",
    weight: "How much an event counts against the others.",
  },
  samples: ["2026-03-22 rest", "2026-03-20 18:00 Sprint plan Even effort 8", "Sprint again"],
};
