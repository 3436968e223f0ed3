/** How a found plan is told: nothing that never comes, nothing twice. */
import { describe, expect, it } from "vitest";
import { draftOf, mapLanes } from "../../src/6-search/draft.js";
import { textOf } from "../../src/6-search/draft-text.js";
import { allNumbers } from "../../src/6-search/numbers.js";
import { besideTheBest, reasonsFor } from "../../src/6-search/reasons.js";
import { suggestedAfter } from "../../src/6-search/suggest.js";
import { trimmed } from "../../src/6-search/trim.js";
import { compile } from "../../src/compile.js";
import { events, problemOf } from "./events.js";

const head =
  "team Pier Nine\n  Ada woman\n  Olu man\nability Ada Olu\n  dip unbroken 16 20 reps\n  dip cycle 2 2 s\n  step unbroken 40 40 reps\n  step cycle 2 2 s\n" +
  "event Test\n  cap 10 min\n  working at most 1\n  stage dips 6 dip\n  stage steps 40 step\n";

function draftFor(plan: string) {
  const { documents, kept } = compile([{ path: "a.rota", text: `${head}${plan}` }]);
  const [found] = [...documents.values()].flatMap(({ blocks }) => blocks.flatMap((block) => block.plan?.resolved.plan ?? []));
  const draft = found && draftOf(found, kept.abilities);
  if (!draft) throw new Error("no draft");
  return { draft, told: trimmed(draft, kept.abilities, kept.world.constants) };
}

describe("a plan as it is told", () => {
  it("has no set larger than its stage, no turn and no rest that never comes", () => {
    const { told } = draftFor(
      "plan P for Test\n  stage dips\n    repeat\n      Ada 9\n      Olu 4\n      rest 11 s\n  stage steps\n    repeat\n      Ada 8-6-5-4\n      Olu 10\n      rest 5 s\n",
    );
    // Six dips are Ada's alone; of her ladder of steps 8 + 10 + 6 + 10 and the last 6 of 40 come to the third step.
    expect(textOf(told, "P")).toBe(
      "plan P for Test\n  stage dips\n    repeat\n      Ada 6\n  stage steps\n    repeat\n      Ada 8-6-5\n      Olu 10\n      rest 5 s\n",
    );
  });

  it("has no set larger than what its stage has left", () => {
    const { told } = draftFor(
      "plan P for Test\n  stage dips\n    repeat\n      Ada 2\n      Olu 8\n  stage steps\n    repeat\n      Ada 9\n      Olu 10\n",
    );
    // Of Olu's eight the stage has four left.
    expect(textOf(told, "P")).toContain("Ada 2\n      Olu 4\n");
  });

  it("says nothing twice over, but where a rest stands between the two", () => {
    const steps = "  stage steps\n    repeat\n      Ada 8\n      Olu 10\n      Ada 8\n      Olu 10\n";
    const dips = "plan P for Test\n  stage dips\n    repeat\n      Ada 6\n";
    expect(textOf(draftFor(`${dips}${steps}`).told, "P")).toBe(`${dips}  stage steps\n    repeat\n      Ada 8\n      Olu 10\n`);
    expect(textOf(draftFor(`${dips}${steps}      rest 5 s\n`).told, "P")).toBe(`${dips}${steps}      rest 5 s\n`);
  });

  it("asks nobody to remember twice what is the same at two stages", () => {
    const one = "    repeat\n      Ada 5\n      Olu 6\n      rest 4 s\n";
    const alike = draftFor(`plan P for Test\n  stage dips\n${one}  stage steps\n${one}`).draft;
    expect(allNumbers(alike)).toBe(3);
    const other = draftFor(`plan P for Test\n  stage dips\n${one}  stage steps\n${one.replace("Olu 6", "Olu 7")}`).draft;
    expect(allNumbers(other)).toBe(6);
  });
});

describe("a plan that opens a long event with large sets", () => {
  const { event, team, abilities, constants } = problemOf(events["reps in time"] ?? "");
  const [best] = suggestedAfter(20, event, team, abilities, constants);
  if (!best) throw new Error("nothing found");
  const opening = (percents: readonly number[]) => ({
    ...best,
    draft: mapLanes(best.draft, (lane) => ({
      ...lane,
      turns: lane.turns.map((turn) => ({ ...turn, size: { kind: "percent", percents } })),
    })),
  });

  it("says how large they are", () => {
    // Bests of 20, 16, 24 and 18: 60 % of 16 is 10 reps, 62.5 % of it.
    const said = "First sets of up to 63 % of a best: the trade opens a long event with a quarter to a third.";
    expect(reasonsFor(opening([60, 20]), [], abilities, constants)).toContain(said);
    expect(reasonsFor(opening([25, 20]), [], abilities, constants).join()).not.toContain("First sets");
  });

  it("has a gentler one beside it, with what that gives up", () => {
    const gentler = { ...opening([25, 20]), sort: "gentler" } as const;
    expect(besideTheBest(gentler, { middle: 95, troubled: 0 }, opening([60, 20]), { middle: 100, troubled: 0 })).toEqual([
      "5 reps fewer on the middle day, with no first set over a third of a best.",
      "25-20 % is Ines 5-4, Marta 4-3, Bram 6-5, Tariq 5-4.",
    ]);
  });
});
