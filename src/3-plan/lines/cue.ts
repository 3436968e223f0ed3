import { unitSpellings } from "../../../grammar/tokens.js";
import { secondsOf } from "../../0-base/quantity.js";
import type { Value } from "../parts.js";
import { joined, printValue } from "../print-parts.js";
import { rawChild } from "../read-parts.js";
import type { LineKind } from "./line-kind.js";

/** `from 6:00` and `last 2 min` before the words are a time only where a time follows: “from the hips” is words. */
export const cueLine: LineKind<"cue"> = {
  kind: "cue",
  node: "Cue",
  head: "cue",
  under: ["plan", "stage", "window", "repeat", "lane", "turn", "round turn"],
  read(node, r) {
    const text = rawChild(node, "Text", r);
    const said = /^(from|last)\s+(?:(\d+(?::\d\d){1,2})|(\d+(?:\.\d+)?)\s*([a-z]+))(?=\s+\S)/u.exec(text);
    const [whole = "", of, clock, digits, spelling = ""] = said ?? [];
    const unit = unitSpellings.get(spelling);
    if ((of !== "from" && of !== "last") || (clock === undefined && unit !== "s" && unit !== "min" && unit !== "h"))
      return { kind: "cue", text, when: null };
    const from = r.span(node.getChild("Text") ?? node).from + whole.search(/\d/);
    const value: Value = {
      kind: "value",
      amount: clock === undefined ? Number(digits) : secondsOf(clock),
      unit: clock === undefined && (unit === "min" || unit === "h") ? unit : "s",
      clock: clock !== undefined,
      span: { from, to: from + whole.length - whole.search(/\d/) },
    };
    return { kind: "cue", text: text.slice(whole.length).trim(), when: { of, value } };
  },
  print({ text, when }) {
    return joined("cue", when && `${when.of} ${printValue(when.value)}`, text);
  },
  help: {
    cue: "Words for an athlete, on the card and called by the clock: cue TEXT under a plan, a stage or a turn; cue from 6:00 TEXT; cue last 2 min TEXT.",
  },
  samples: ["cue breathe at the top", "cue from 6:00 push", "cue last 2 min everything"],
};
