/** The plan on the floor: what is marked moves the rest; what was marked is a log of the language. */
import { describe, expect, it } from "vitest";
import { floorAt, floorOf, type Mark, logText } from "../../src/7-view/floor.js";
import { pierNine } from "../../src/5-findings/examples.js";
import { compileText, findingsOf } from "../notebook.js";

const ground = `${pierNine}assume set-up 0 s
event Sprint
  cap 5 min
  handover 3 s
  stage first 20 box jump while 1 hold stone
  stage second 10 box jump
plan P for Sprint
  cue from 0:30 keep it even
  stage first
    repeat
      Ada 5 while Olu hold
      Olu 5 while Ada hold
  stage second
    Ada 5
      cue now fast
    Olu 5
`;

function floor() {
  const { documents, kept } = compileText(ground);
  const result = [...documents.values()].flatMap(({ blocks }) => blocks.flatMap(({ plan }) => plan ?? []))[0];
  if (!result?.resolved.plan || !result.timeline) throw new Error("no plan");
  return floorOf(result.resolved.plan, result.timeline, kept.world.constants);
}

// Five reps take 10 s, a handover 3 s: Ada 0–10, Olu 13–23, Ada 26–36, Olu 39–49; then Ada 52–62, Olu 65–75.
describe("the clock of the floor", () => {
  const plan = floor();

  it("knows the turns in time, what they come to, words for a time and for a turn", () => {
    expect(
      plan.steps.map(
        ({ startS, endS, who, work, holders, stage, until }) => `${startS}–${endS} ${who} ${work} ${holders} ${stage} ${until}`,
      ),
    ).toEqual([
      "0–10 Ada 5 box jump Olu first 5",
      "13–23 Olu 5 box jump Ada first 10",
      "26–36 Ada 5 box jump Olu first 15",
      "39–49 Olu 5 box jump Ada first 20",
      "52–62 Ada 5 box jump  second 5",
      "65–75 Olu 5 box jump  second 10",
    ]);
    expect(plan.calls).toEqual([{ atS: 30, text: "keep it even" }]);
    expect(plan.steps[4]?.cues).toEqual(["now fast"]);
  });

  it("goes on by time where nothing is marked", () => {
    const at = (nowS: number) => {
      const { now, next, changeInS, standing, done } = floorAt(plan, [], nowS);
      return [now.map(({ who }) => who.join()).join(), next?.who.join() ?? null, Math.round(changeInS), standing, done];
    };
    expect(at(4)).toEqual(["Ada", "Olu", 6, 2, false]);
    // In the handover the next is shown already.
    expect(at(11)).toEqual(["Olu", "Ada", 12, 5, false]);
    expect(at(70)).toEqual(["Olu", null, 5, 7, false]);
    expect(at(75)).toEqual(["", null, 0, 10, true]);
  });

  it("a change marked four seconds late moves the rest by four; one marked early moves it forward", () => {
    const late: readonly Mark[] = [{ kind: "change", atS: 14 }];
    expect(floorAt(plan, late, 14)).toMatchObject({ lateS: 4, expectedEndS: 79 });
    expect(floorAt(plan, late, 14).now[0]?.who).toEqual(["Olu"]);
    expect(floorAt(plan, [...late, { kind: "change", atS: 25 }], 25)).toMatchObject({ lateS: 2, expectedEndS: 77 });
    expect(floorAt(plan, [{ kind: "change", atS: 8 }], 8)).toMatchObject({ lateS: -2, expectedEndS: 73 });
  });

  it("two marks in a row are two changes", () => {
    expect(
      floorAt(
        plan,
        [
          { kind: "change", atS: 10 },
          { kind: "change", atS: 10.5 },
        ],
        10.5,
      ).lateS,
    ).toBeCloseTo(10.5 - 23, 6);
  });

  it("a miss costs 3 s and a rep of usual length, a dropped hold 13 s, a no-rep a rep; reps so far say how late it is", () => {
    expect(floorAt(plan, [{ kind: "miss", atS: 5, who: "Ada" }], 5).lateS).toBeCloseTo(5.5, 6);
    expect(floorAt(plan, [{ kind: "drop", atS: 5, who: "Olu" }], 5).lateS).toBeCloseTo(13, 6);
    expect(floorAt(plan, [{ kind: "no-rep", atS: 5, who: "Ada" }], 5).lateS).toBeCloseTo(2.5, 6);
    // Seven done were planned for 17 s.
    expect(floorAt(plan, [{ kind: "reps", atS: 20, count: 7 }], 20).lateS).toBeCloseTo(3, 6);
  });

  it("never says a finish past the cap", () => {
    expect(floorAt(plan, [{ kind: "reps", atS: 295, count: 2 }], 295).expectedEndS).toBe(300);
  });

  it("what was marked is a log block that the language takes, without a finding", () => {
    const marks: readonly Mark[] = [
      { kind: "miss", atS: 5, who: "Ada" },
      { kind: "change", atS: 16 },
      { kind: "drop", atS: 20, who: "Ada" },
      { kind: "change", atS: 30 },
      { kind: "change", atS: 45 },
      { kind: "no-rep", atS: 50, who: "Olu" },
      { kind: "change", atS: 60 },
    ];
    const log = logText(plan, marks, { date: "2026-03-23", time: "18:00", endS: 90 });
    // Ada's second set: five of the first and, three seconds in, one more; the board has the first stage's twenty on it.
    const more = logText(
      plan,
      [
        { kind: "miss", atS: 29.5, who: "Ada" },
        { kind: "reps", atS: 60, count: 3 },
      ],
      { date: "2026-03-23", time: "18:00", endS: 90, felt: 8, handoverS: 4, note: " cold  hands " },
    );
    expect(more).toBe(
      "log P on 2026-03-23 18:00\n  Ada broke at 6 box jump\n  reps at 1:00 23\n  handover about 4 s\n  felt 8\n  note cold hands\n  finish 1:30\n",
    );
    expect(findingsOf(compileText(`${ground}${more}`)).filter(({ severity }) => severity === "error")).toEqual([]);
    expect(log).toBe(
      "log P on 2026-03-23 18:00\n  Ada broke at 2 box jump\n  Ada dropped the hold at 0:20\n  Olu no-rep 1\n  first done 1:00\n  finish 1:30\n",
    );
    expect(findingsOf(compileText(`${ground}${log}`)).filter(({ severity }) => severity === "error")).toEqual([]);
  });
});
