/**
 * Rounds that a team shares out, against every plan of a plain kind: each movement in two halves, by whomever, one after the
 * other or when ready. They are typed as a coach would, compiled, and taken where nobody misses.
 */
import { describe, expect, it } from "vitest";
import { textOf } from "../../src/6-search/draft-text.js";
import { suggestedAfter } from "../../src/6-search/suggest.js";
import { compileText, findingsOf, timelineOf } from "../notebook.js";
import { ground, problemOf } from "./events.js";

const rounds = (of: string): string => `  working at most 1\n  round${of}\n    12 squat\n    8 row\n`;
const events = {
  time: `${ground(16, 80)}event Test\n  score time\n  cap 15 min\n${rounds(" of 4")}`,
  reps: `${ground(16, 80)}event Test\n  score reps\n  cap 6 min\n${rounds("")}`,
} as const;
const names = ["Ines", "Marta", "Bram", "Tariq"];

/** The best score of the plain plans, in s or reps. */
function bestPlain(kind: keyof typeof events): number {
  const scores = names.flatMap((a) =>
    names.flatMap((b) =>
      names.flatMap((c) =>
        names.flatMap((d) =>
          ["", "    rest until ready\n"].flatMap((rest) => {
            const plan = `plan P for Test\n  repeat\n${rest}    ${a} 6 squat\n    ${b} 6 squat\n    ${c} 4 row\n    ${d} 4 row\n`;
            const timeline = timelineOf(compileText(`${events[kind]}${plan}`), "P");
            const missed = timeline.turns.some(({ misses }) => misses.length > 0);
            return missed || (kind === "time" && !timeline.score.finished) ? [] : [timeline.score.value];
          }),
        ),
      ),
    ),
  );
  return kind === "time" ? Math.min(...scores) : Math.max(...scores);
}

describe.each(["time", "reps"] as const)("rounds for %s", (kind) => {
  it("are shared out at least as well as in the best plain way, and keep every rule", () => {
    const { event, team, abilities, constants } = problemOf(events[kind]);
    const [first] = suggestedAfter(800, event, team, abilities, constants);
    const text = first ? textOf(first.draft, "Found") : "";
    const compiled = compileText(`${events[kind]}${text}`);
    expect(findingsOf(compiled).filter(({ severity }) => severity === "error")).toEqual([]);
    const found = timelineOf(compiled, "Found").score.value;
    const plain = bestPlain(kind);
    // The search looks at drawn days, the plain plans ride the expected one.
    if (kind === "time") expect(found).toBeLessThanOrEqual(1.02 * plain);
    else expect(found).toBeGreaterThanOrEqual(0.98 * plain);
  }, 120_000);
});
