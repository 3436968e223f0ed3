import { joined, printHours, printWho } from "../print-parts.js";
import { hoursIn, whoIn } from "../read-parts.js";
import type { LineKind } from "./line-kind.js";

export const awayLine: LineKind<"away"> = {
  kind: "away",
  node: "Away",
  under: ["week"],
  read(node, r) {
    const [date = "", until = null] = node.getChildren("Date").map((day) => r.raw(day));
    return { kind: "away", who: whoIn(node, r), date, until, hours: hoursIn(node, r) };
  },
  print({ who, date, until, hours }, q) {
    return joined(printWho(who, q), "away", date, until && `until ${until}`, hours && printHours(hours));
  },
  names({ who }, found) {
    found.who(who);
  },
  help: {
    away: "Who cannot come: Ines away 2026-03-21, until a later day, or between two hours.",
  },
  samples: ["Ines away 2026-03-21", "Ines away 2026-03-21 until 2026-03-23"],
};
