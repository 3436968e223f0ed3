/** Stages that all run to the cap are done side by side, against every plain way to share the team out to them. */
import { describe, expect, it } from "vitest";
import { draftOf, planOf } from "../../src/6-search/draft.js";
import { textOf } from "../../src/6-search/draft-text.js";
import { noEnd, suggestedAfter } from "../../src/6-search/suggest.js";
import { compileText, findingsOf, timelineOf } from "../notebook.js";
import { ground, problemOf } from "./events.js";

const event =
  'event Test\n  score reps\n  cap 6 min\n  working at most 2\n  one rack for squat\n  stage "rack" squat\n  stage "boat" row\n  rule each at least 10 reps\n';
const text = `${ground(16, 80)}${event}`;
const names = ["Ines", "Marta", "Bram", "Tariq"];

/** Two at each stage, in sets of a size, when ready. */
function bestPlain(): number {
  const pairs = names.flatMap((one, at) => names.slice(at + 1).map((other) => [one, other] as const));
  const scores = pairs.flatMap(([a, b]) => {
    const [c = "", d = ""] = names.filter((name) => name !== a && name !== b);
    return [3, 4, 5, 6, 7].flatMap((squats) =>
      [3, 4, 5, 6, 7].flatMap((strokes) => {
        const lane = (stage: string, who: readonly string[], reps: number): string =>
          `  lane ${stage}\n    stage ${stage}\n      repeat, each when ready\n${who.map((name) => `        ${name} ${reps}\n`).join("")}`;
        const plan = `plan P for Test\n${lane("rack", [a, b], squats)}${lane("boat", [c, d], strokes)}`;
        const timeline = timelineOf(compileText(`${text}${plan}`), "P");
        return timeline.turns.some(({ misses }) => misses.length > 0) ? [] : [timeline.score.value];
      }),
    );
  });
  return Math.max(...scores);
}

describe("stages side by side", () => {
  const { event: spec, team, abilities, constants } = problemOf(text);

  it("are suggested in lanes of their own, at least as well as the best plain plan, within the rules", () => {
    const [first] = suggestedAfter(600, spec, team, abilities, constants);
    const found = first ? textOf(first.draft, "Found") : "";
    const compiled = compileText(`${text}${found}`);
    expect(findingsOf(compiled).filter(({ severity }) => severity === "error")).toEqual([]);
    expect(timelineOf(compiled, "Found").score.value).toBeGreaterThanOrEqual(0.98 * bestPlain());
    const typed = [...compiled.documents.values()].flatMap(({ blocks }) => blocks.flatMap(({ plan }) => plan?.resolved.plan ?? []))[0];
    const again = typed ? draftOf(typed, abilities) : null;
    expect(again && first && planOf(again).steps).toEqual(first && planOf(first.draft).steps);
  }, 120_000);

  it("are none where fewer may work at once than there are stages, or beside a stage with a target", () => {
    const one = problemOf(text.replace("working at most 2", "working at most 1")).event;
    expect(noEnd(one)).toBe(
      "rack and boat both run to the cap: a plan does them side by side, each in a lane of its own, but only 1 may work at once. Give rack a target.",
    );
    const three = problemOf(text.replace('  stage "rack"', '  stage first 20 squat\n  stage "rack"')).event;
    expect(noEnd(three)).toContain("beside stages with a target no such plans are looked for");
  });
});
