/** The simulator behind a mark: a turn ends when it was seen to, and what follows is the model's. */
import { describe, expect, it } from "vitest";
import { Follower } from "../../src/4-timeline/follow.js";
import { pierNine } from "../../src/5-findings/examples.js";
import { compileText } from "../notebook.js";

const ground = `${pierNine}assume set-up 0 s
event Sprint
  cap 5 min
  handover 3 s
  stage first 20 box jump
  stage second 10 box jump
plan P for Sprint
  stage first
    repeat
      Ada 5
      Olu 5
  stage second
    Ada 5
    Olu 5
`;

function follower(text = ground): Follower {
  const { documents, kept } = compileText(text);
  const result = [...documents.values()].flatMap(({ blocks }) => blocks.flatMap(({ plan }) => plan ?? []))[0];
  if (!result?.resolved.plan) throw new Error("no plan");
  return new Follower(result.resolved.plan, kept.abilities, kept.world.constants);
}

const ends = ({ turns }: Follower): readonly number[] => turns.map(({ endS }) => Math.round(100 * endS) / 100);

// Five reps take 10 s, a handover 3 s: 0–10, 13–23, 26–36, 39–49, 52–62, 65–75.
describe("what follows a turn that was seen to end", () => {
  it("moves with it: the first turn four seconds late, all the others four seconds later", () => {
    const floor = follower();
    expect(ends(floor)).toEqual([10, 23, 36, 49, 62, 75]);
    floor.end({ turn: 0, endS: 14 });
    expect(ends(floor)).toEqual([14, 27, 40, 53, 66, 79]);
  });

  it("each turn keeps the moment at which it was seen, whatever is marked after it", () => {
    const floor = follower();
    const seen = [
      [0, 12],
      [1, 24],
      [2, 41],
      [3, 50],
    ] as const;
    for (const [turn, endS] of seen) floor.end({ turn, endS });
    expect(
      ends(floor)
        .slice(0, 4)
        .map((endS, at) => Math.abs(endS - (seen[at]?.[1] ?? 0)) < 0.05),
    ).toEqual([true, true, true, true]);
    expect(ends(floor).at(-1)).toBeCloseTo(76, 1);
  });

  it("a wait until ready takes up what is late: the other has rested meanwhile", () => {
    const tight = ground
      .replaceAll("repeat\n", "repeat, each when ready\n")
      .replace(/(Ada|Olu) 5\n/g, "$1 14\n")
      .replace("20 box jump", "84 box jump");
    const [before, after] = [follower(tight), follower(tight)];
    const [first, second, third] = before.turns;
    expect((third?.startS ?? 0) - (second?.endS ?? 0)).toBeGreaterThan(3.5);
    after.end({ turn: 1, endS: (second?.endS ?? 0) + 6 });
    // Ada had six seconds more of rest than on paper: her next set begins less than six seconds later.
    const later = (after.turns[2]?.startS ?? 0) - (third?.startS ?? 0);
    expect(later).toBeGreaterThan(-0.01);
    expect(later).toBeLessThan(5);
    expect(first?.endS).toBe(after.turns[0]?.endS);
  });

  it("knows how everybody stands, and what is done, at a moment", () => {
    const floor = follower();
    floor.end({ turn: 0, endS: 14 });
    const { condition, stages } = floor.at(27);
    expect(stages.map(({ reps }) => reps)).toEqual([10]);
    const spent = (name: string): number =>
      [...condition.movements].reduce((sum, [key, { fast, slow }]) => sum + (key.startsWith(name) ? fast + slow : 0), 0);
    // Olu has just worked, Ada has rested for thirteen seconds.
    expect(spent("Olu")).toBeGreaterThan(spent("Ada"));
    expect(spent("Ada")).toBeGreaterThan(0);
  });
});
