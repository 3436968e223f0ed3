import { isSlip } from "../../0-base/nearest.js";
import { problem, type ProblemOf } from "../../0-base/problem.js";
import type { Line } from "../../3-plan/ast.js";
import { always, type Rule } from "../rule.js";

declare module "../../0-base/problem.js" {
  interface ProblemValues {
    "week-limit": { meant: string };
  }
}

export const weekLimit: Rule<"week-limit"> = {
  id: "week-limit",
  severity: always("error"),
  title: "A limit of the week that is not known",
  why: "A limit that nobody measures looks kept.",
  source: "the language",
  bad: "week One\n  «at least 4 h after lunch»\n",
  good: "week One\n  at least 4 h between events\n  at most 1 event a day\n  keep 2 h before due\n",
  check: ({ line }) => (line.kind === "week" ? line.body.flatMap(unknown) : []),
  message: (values) => `The week does not know this limit. Write: ${values.meant}.`,
};

function unknown(line: Line): readonly ProblemOf<"week-limit">[] {
  const meant =
    line.kind === "gap" && !/^between (events|sessions)$/.test(line.what.text)
      ? "between events"
      : line.kind === "keep" && line.what.text !== "before due"
        ? "before due"
        : line.kind === "day limit" && !/^(events?|sessions?) a day$/.test(line.what.text)
          ? line.most === 1
            ? "event a day"
            : "events a day"
          : null;
  if (meant === null || (line.kind !== "gap" && line.kind !== "keep" && line.kind !== "day limit")) return [];
  const said = line.kind === "gap" ? "at least 4 h between events" : line.kind === "keep" ? "keep 2 h before due" : "at most 1 event a day";
  return [
    problem("week-limit", line.span, { meant: said }, [
      { title: `write “${meant}”`, guess: !isSlip(line.what.text, meant), edits: [{ span: line.what.span, text: meant }] },
    ]),
  ];
}
