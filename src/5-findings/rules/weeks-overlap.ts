import { problem } from "../../0-base/problem.js";
import { readWeek } from "../../3-plan/week.js";
import { always, type Rule } from "../rule.js";

declare module "../../0-base/problem.js" {
  interface ProblemValues {
    "weeks-overlap": { other: string };
  }
}

const first = "event Sprint\n  cap 5 min\n  stage 5 jump\nweek One\n  2026-03-20 10:00  Sprint\n  2026-03-22 10:00  Sprint again\n";

export const weeksOverlap: Rule<"weeks-overlap"> = {
  id: "weeks-overlap",
  severity: always("warning"),
  title: "Two weeks that overlap",
  why: "What one week leaves in the body is not in the other's numbers.",
  source: "the calendar",
  bad: `${first}«week Two»\n  2026-03-21 10:00  Sprint\n`,
  good: `${first}week Two\n  2026-03-23 10:00  Sprint\n`,
  check: ({ line, evaluation }) => {
    if (line.kind !== "week") return [];
    const { weeks } = evaluation.world;
    const [from, to] = edges(line);
    const before = weeks.slice(
      0,
      weeks.findIndex((other) => other.line === line),
    );
    const met = before.find((other) => {
      const [otherFrom, otherTo] = edges(other.line);
      return from !== "" && otherFrom !== "" && from <= otherTo && otherFrom <= to;
    });
    return met ? [problem("weeks-overlap", line.span, { other: met.line.name.text })] : [];
  },
  message: (values) => `This week has days of week ${values.other}. Put them into one, or move one of them.`,
};

/** The first and the last day with a session. */
function edges(line: Parameters<typeof readWeek>[0]): readonly [string, string] {
  const dates = readWeek(line)
    .sessions.flatMap(({ date }) => date ?? [])
    .sort();
  return [dates[0] ?? "", dates.at(-1) ?? ""];
}
